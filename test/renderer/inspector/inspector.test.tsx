/** The inspector on the real service: a field is one step that can be undone; a refusal stands at its field. */
import "../with-dom.ts";
import { screen, waitFor, within } from "@testing-library/react";
import { afterEach, beforeEach, expect, it } from "vitest";
import { AddDialog } from "../../../renderer/forms/add-dialog.tsx";
import { Inspector } from "../../../renderer/inspector/inspector.tsx";
import { ArrivalDialog } from "../../../renderer/records/flight-records.tsx";
import { withoutPictures } from "../bare-pictures.ts";
import { openPage } from "../planner-page.tsx";

type Page = Awaited<ReturnType<typeof openPage>>;
let page: Page;

const open = async (content: React.ReactNode) => {
  page = await openPage(content);
  return page;
};
const flight = (key: string) => page.plan().flights.find((row) => row.key === key)!;
const select = async (kind: "flight" | "sortie" | "tank" | "lossPeriod", id: string, name: string | RegExp) => {
  page.session.select({ kind, id });
  await screen.findByRole("heading", { level: 2, name });
};
const field = (name: string) => screen.getByRole<HTMLInputElement>("textbox", { name });
const type = async (name: string, text: string) => {
  await page.user.clear(field(name));
  await page.user.type(field(name), text);
};

beforeEach(() => {
  localStorage.clear();
  withoutPictures();
});
afterEach(async () => {
  await page.close();
});

it("a departure typed by keyboard moves the flight with its transit, as one step that undo takes back", async () => {
  await open(<Inspector />);
  const before = flight("packhorse-4");
  await select("flight", before.id, before.name);
  const revision = page.revision();
  await type("Departs", "2031-09-01{Enter}");
  await page.saved(revision);
  const after = flight("packhorse-4");
  expect(after.departAt).toBe(Date.UTC(2031, 8, 1));
  expect(after.arriveAt - after.departAt).toBe(before.arriveAt - before.departAt);
  expect(page.store.get().ledger?.undoLabel).toBe(`Change departure of ${before.name}`);
  await page.session.undo();
  await waitFor(() =>
    expect(field("Departs").value).toBe(new Date(before.departAt).toISOString().slice(0, 16).replace("T", " ")),
  );
  expect(flight("packhorse-4")).toEqual(before);
});

it("a value that breaks a rule of the plan is refused in words, and the plan is as it was", async () => {
  await open(<Inspector />);
  const tank = page.plan().tanks.find(({ ownerKind }) => ownerKind === "depot")!;
  await select("tank", tank.id, tank.name);
  await type("Inner volume", "1{Enter}");
  const said = await screen.findAllByRole("alert");
  expect(said.map((node) => node.textContent).join(" ")).toMatch(/fill|volume|ullage/i);
  expect(page.plan().tanks.find(({ id }) => id === tank.id)).toEqual(tank);
});

it("a share lost is taken as compounding: k = −ln(1 − r)", async () => {
  await open(<Inspector />);
  const [first] = page.plan().lossPeriods;
  const period = { ...first!, basis: { kind: "stated" as const, kPerDay: 0.004, cKgPerDay: 0 } };
  const stated = await page.session.edit("State a rate", [{ op: "put", kind: "lossPeriod", value: period }]);
  expect(stated.ok).toBe(true);
  await select("lossPeriod", period.id, /./);
  const revision = page.revision();
  await type("Proportional loss", "1{Enter}");
  await page.saved(revision);
  const basis = page.plan().lossPeriods.find(({ id }) => id === period.id)!.basis;
  // −ln 0.99 = 0.0100503358535014…, as in any table of logarithms.
  expect(basis.kind === "stated" && basis.kPerDay).toBeCloseTo(0.0100503358535014, 15);
  expect(screen.getByText(/is gone after a day: k = −ln\(1 − 0.01\)/)).toBeTruthy();
});

it("a sortie says how it stands, and what that hinges on once the check has answered", async () => {
  await open(<Inspector />);
  const sortie = page.plan().sorties.find(({ key }) => key === "sortie-2")!;
  await select("sortie", sortie.id, sortie.name);
  expect(screen.getByText("Working out slack…")).toBeTruthy();
  await screen.findByText(/can slip by .* at most/, {}, { timeout: 50_000 });
  expect(screen.queryByText("Working out slack…")).toBeNull();
});

it("deleting says first what goes along, and undo brings all of it back", async () => {
  await open(<Inspector />);
  const tank = page.plan().tanks.find(({ id }) => page.plan().lossPeriods.some(({ tankId }) => tankId === id))!;
  const period = page.plan().lossPeriods.find(({ tankId }) => tankId === tank.id)!;
  await select("lossPeriod", period.id, /./);
  const count = page.plan().lossPeriods.length;
  const revision = page.revision();
  await page.user.click(screen.getByRole("button", { name: "Delete…" }));
  const dialog = await screen.findByRole("alertdialog");
  await within(dialog).findByText("Nothing else in the plan refers to it.");
  await page.user.click(within(dialog).getByRole("button", { name: "Delete" }));
  await page.saved(revision);
  expect(page.plan().lossPeriods).toHaveLength(count - 1);
  await page.session.undo();
  await waitFor(() => expect(page.plan().lossPeriods).toHaveLength(count));
});

it("a flight is added by keyboard alone and selected", async () => {
  let isClosed = false;
  await open(<AddDialog kind="flight" at={null} onClose={() => (isClosed = true)} />);
  const revision = page.revision();
  const names = new Set(page.plan().flights.map(({ name }) => name));
  const name = await screen.findByRole<HTMLInputElement>("textbox", { name: "Name" });
  expect(names.has(name.value)).toBe(false);
  await page.user.clear(name);
  await page.user.type(name, "Night wagon{Enter}");
  await page.saved(revision);
  await waitFor(() => expect(isClosed).toBe(true));
  const made = page.plan().flights.find((row) => row.name === "Night wagon")!;
  expect(made).toMatchObject({ key: "night-wagon", status: "planned" });
  expect(page.store.get().selection).toEqual({ kind: "flight", id: made.id });
});

it("an arrival shows what it will post before it is written, and posts just that", async () => {
  await open(<ArrivalDialog request={{ action: "record.arrival", subject: null, at: null }} close={() => undefined} />);
  const under = page.plan().flights.find(({ status }) => status === "departed")!;
  // A metered handover is an entry of its beginning and one of its end.
  await screen.findAllByText(`Arrival: ${under.name}`);
  const aboard = screen.getAllByText(`aboard ${under.name}`);
  expect(aboard.length).toBeGreaterThanOrEqual(under.loads.length);
  const revision = page.revision();
  await page.user.click(screen.getByRole("button", { name: "Record arrival" }));
  await page.saved(revision);
  expect(page.plan().flights.find(({ id }) => id === under.id)?.status).toBe("arrived");
  const journal = await page.session.client.call("journal.page", {
    fromAt: null,
    untilAt: null,
    accountKind: "transit",
    ownerId: under.key,
    propellantId: null,
    subjectKey: null,
    text: "",
    offset: 0,
    limit: 10,
  });
  if (!journal.ok) throw new Error(journal.failure.message);
  expect(journal.value.sums.every(({ grams }) => grams === 0)).toBe(true);
});

it("more taken than was loaded is refused while it is typed, with nothing written", async () => {
  await open(<ArrivalDialog request={{ action: "record.arrival", subject: null, at: null }} close={() => undefined} />);
  const under = page.plan().flights.find(({ status }) => status === "departed")!;
  await screen.findAllByText(`Arrival: ${under.name}`);
  const revision = page.revision();
  const [taken] = screen.getAllByRole<HTMLInputElement>("textbox", { name: /Tarn hydrogen/ });
  await page.user.clear(taken!);
  await page.user.type(taken!, "999999{Enter}");
  await waitFor(() =>
    expect(
      screen
        .getAllByRole("alert")
        .map((node) => node.textContent)
        .join(" "),
    ).toContain("left with"),
  );
  await waitFor(() =>
    expect(screen.getByRole("button", { name: "Record arrival" }).hasAttribute("aria-disabled")).toBe(true),
  );
  expect(page.revision()).toBe(revision);
});
