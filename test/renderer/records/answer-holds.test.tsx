/** The answer in the window, on the real service: a look back is said first, a missing earlier event is offered, books are opened. */
import "../with-dom.ts";
import { screen, waitFor } from "@testing-library/react";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { AddDialog } from "../../../renderer/forms/add-dialog.tsx";
import { Inspector } from "../../../renderer/inspector/inspector.tsx";
import { ArrivalDialog, DepartureDialog } from "../../../renderer/records/flight-records.tsx";
import { LoadingDialog, ReturnDialog } from "../../../renderer/records/sortie-records.tsx";
import { useApp } from "../../../renderer/state/use-session.ts";
import { levelNow } from "../../../renderer/state/tank-now.ts";
import { SupplyView } from "../../../renderer/supply/supply-view.tsx";
import { withoutPictures } from "../bare-pictures.ts";
import { openPage } from "../planner-page.tsx";

type Page = Awaited<ReturnType<typeof openPage>>;
let page: Page;
beforeEach(() => {
  localStorage.clear();
  withoutPictures();
});
afterEach(async () => {
  await page.close();
  vi.restoreAllMocks();
});

const DAY = 86_400_000;

it("Supply says first that it looks back, and how many records are left out", async () => {
  page = await openPage(<SupplyView />);
  await screen.findByLabelText("Verdict");
  expect(screen.queryByText(/Looking back/)).toBeNull();
  const asOfAt = page.plan().asOfAt;
  await page.session.command("ledger.asOf", { asOfAt: asOfAt - 40 * DAY });
  const line = await screen.findByText(
    /^Looking back: this is what was known on .+ later records?, the last of .+ left out\./,
  );
  const verdict = screen.getByLabelText("Verdict");
  expect(line.compareDocumentPosition(verdict) & Node.DOCUMENT_POSITION_FOLLOWING).toBeTruthy();
  await page.session.command("ledger.asOf", { asOfAt: null });
  await waitFor(() => expect(screen.queryByText(/Looking back/)).toBeNull());
  expect(page.plan().asOfAt).toBe(asOfAt);
});

it("an arrival without a record of its departure offers to record both, as one step", async () => {
  const close = vi.fn<() => void>();
  page = await openPage(null);
  const flight = page.plan().flights.find(({ status, origin }) => status === "planned" && origin.kind === "source")!;
  await page.close();
  page = await openPage(
    <ArrivalDialog
      request={{ action: "record.arrival", subject: { kind: "flight", id: flight.id } } as never}
      close={close}
    />,
  );
  await screen.findByText(`${flight.name} has no record of its departure.`);
  // Refused as it stands.
  expect(await screen.findByText(/this can be recorded of a flight that is departed/)).toBeTruthy();
  const revision = page.revision();
  await page.user.click(screen.getByRole("checkbox", { name: "Record its departure in the same step" }));
  await waitFor(() => expect(screen.queryByText(/this can be recorded of a flight that is departed/)).toBeNull());
  const confirm = screen.getByRole("button", { name: "Record arrival" });
  await waitFor(() => expect(confirm.hasAttribute("aria-disabled")).toBe(false));
  await page.user.click(confirm);
  await page.saved(revision);
  expect(page.plan().flights.find(({ id }) => id === flight.id)).toMatchObject({ status: "arrived" });
  await page.session.undo();
  await waitFor(() =>
    expect(page.plan().flights.find(({ id }) => id === flight.id)).toMatchObject({ status: "planned" }),
  );
});

it("a loading before which an arrival has no record offers to record both, as one step", async () => {
  page = await openPage(null);
  const { forecast } = page.store.get().current!;
  const plan = page.plan();
  const firstOf = (depotId: string) =>
    plan.flights
      .filter((row) => row.depotId === depotId && (row.status === "planned" || row.status === "departed"))
      .toSorted((a, b) => a.arriveAt - b.arriveAt)[0];
  const sortie = plan.sorties
    .filter(
      ({ status, depotId, loadAt }) =>
        status === "planned" && (firstOf(depotId)?.arriveAt ?? Infinity) < loadAt - 3 * DAY,
    )
    .toSorted((a, b) => a.loadAt - b.loadAt)
    .find(({ id }) => forecast.sorties.some((said) => said.sortieId === id && said.loadedAt !== null))!;
  const flight = firstOf(sortie.depotId)!;
  await page.close();
  const subject = { kind: "sortie", id: sortie.id };
  page = await openPage(
    <LoadingDialog request={{ action: "record.loading", subject } as never} close={vi.fn<() => void>()} />,
  );
  expect(await screen.findByText(/should have arrived by then and ha(s|ve) no record of it/)).toHaveProperty(
    "textContent",
    expect.stringContaining(flight.name),
  );
  const revision = page.revision();
  await page.user.click(screen.getByRole("checkbox", { name: /as forecast in the same step$/ }));
  await page.user.click(screen.getByRole("button", { name: "Record loading" }));
  await page.saved(revision);
  expect(page.plan().flights.find(({ id }) => id === flight.id)).toMatchObject({ status: "arrived" });
  expect(page.plan().sorties.find(({ id }) => id === sortie.id)).toMatchObject({ status: "departed" });
  await page.session.undo();
  await waitFor(() =>
    expect(page.plan().flights.find(({ id }) => id === flight.id)).toMatchObject({ status: flight.status }),
  );
});

it("a departure from a depot before which an arrival there has no record offers to record both, as one step", async () => {
  page = await openPage(null);
  const plan = page.plan();
  const [earlier] = plan.flights
    .filter((row) => row.status === "planned" && row.origin.kind === "source")
    .toSorted((a, b) => a.arriveAt - b.arriveAt);
  const later = plan.flights.find(
    (row) => row.depotId === earlier!.depotId && row.status === "planned" && row.departAt > earlier!.arriveAt + 3 * DAY,
  )!;
  await page.close();
  // The later flight goes on from the depot to which the earlier one goes, to a new one.
  const subject = { kind: "flight", id: later.id };
  const Departure = () =>
    useApp(({ current }) => current?.plan.flights.find(({ id }) => id === later.id)?.origin.kind === "depot") && (
      <DepartureDialog request={{ action: "record.departure", subject } as never} close={vi.fn<() => void>()} />
    );
  page = await openPage(<Departure />);
  const depot = { ...plan.depots.find(({ id }) => id === earlier!.depotId)!, id: "outpost", name: "Outpost" };
  const tanks = plan.tanks
    .filter(({ ownerId }) => ownerId === earlier!.depotId)
    .map((tank) => ({ ...tank, id: `outpost-${tank.id}`, ownerId: "outpost", name: `Outpost ${tank.name}` }));
  const origin = { kind: "depot" as const, depotId: earlier!.depotId };
  const edited = await page.session.command("plan.edit", {
    label: "Outpost",
    reason: "",
    changes: [
      { op: "put", kind: "depot", value: depot },
      ...tanks.map((value) => ({ op: "put" as const, kind: "tank" as const, value })),
      { op: "put", kind: "flight", value: { ...later, origin, depotId: "outpost" } },
    ],
  });
  expect(edited).toMatchObject({ ok: true });
  expect(await screen.findByText(/should have arrived by then and ha(s|ve) no record of it/)).toHaveProperty(
    "textContent",
    expect.stringContaining(earlier!.name),
  );
  const revision = page.revision();
  await page.user.click(screen.getByRole("checkbox", { name: /as forecast in the same step$/ }));
  await page.user.click(screen.getByRole("button", { name: "Record departure" }));
  await page.saved(revision);
  const statusOf = (id: string) => page.plan().flights.find((row) => row.id === id)?.status;
  expect([statusOf(earlier!.id), statusOf(later.id)]).toEqual(["arrived", "departed"]);
  await page.session.undo();
  await waitFor(() => expect([statusOf(earlier!.id), statusOf(later.id)]).toEqual(["planned", "planned"]));
});

it("a return without a record of its loading offers to record both", async () => {
  page = await openPage(null);
  const sortie = page.plan().sorties.find(({ status }) => status === "planned")!;
  await page.close();
  const subject = { kind: "sortie", id: sortie.id };
  page = await openPage(
    <ReturnDialog request={{ action: "record.return", subject } as never} close={vi.fn<() => void>()} />,
  );
  await screen.findByText(`${sortie.name} has no record of its loading.`);
  expect(await screen.findByText(/this can be recorded of a sortie that is departed/)).toBeTruthy();
  await page.user.click(screen.getByRole("checkbox", { name: "Record its loading in the same step" }));
  await waitFor(() => expect(screen.queryByText(/this can be recorded of a sortie that is departed/)).toBeNull());
});

const unaccounted = async (): Promise<string> =>
  JSON.stringify(
    await page.session.ask("journal.page", {
      fromAt: null,
      untilAt: null,
      accountKind: "unaccounted",
      ownerId: null,
      propellantId: null,
      subjectKey: null,
      text: "",
      offset: 0,
      limit: 100,
    }),
  );

it("a tank is added with what is in it, as one step that undo takes back, and nothing is unaccounted", async () => {
  page = await openPage(<AddDialog kind="tank" isSelecting={false} onClose={() => undefined} />);
  const before = page.plan().tanks.length;
  const name = await screen.findByRole("textbox", { name: "Name" });
  await page.user.clear(name);
  await page.user.type(name, "Spare");
  const most = screen.getByRole("textbox", { name: "Maximum fill" });
  await page.user.clear(most);
  await page.user.type(most, "80000{Tab}");
  await page.user.type(screen.getByRole("textbox", { name: "In the tank" }), "62000");
  const revision = page.revision();
  // At once, without leaving the field first.
  await page.user.click(screen.getByRole("button", { name: "Add" }));
  await page.saved(revision);
  const tank = page.plan().tanks.find((each) => each.name === "Spare")!;
  await waitFor(() => expect(levelNow(page.plan(), tank.id)).toBeCloseTo(62_000, 6));
  expect(page.store.get().ledger?.undoLabel).toBe("Add tank Tarn Spare");
  expect(await unaccounted()).not.toContain("62000000");
  await page.session.undo();
  await waitFor(() => expect(page.plan().tanks).toHaveLength(before));
});

it("the form of a tank whose books are not open asks for its opening level, which is booked from a source", async () => {
  page = await openPage(<Inspector />);
  const pattern = page.plan().tanks.find(({ ownerKind }) => ownerKind === "depot");
  const tank = { ...pattern!, id: "spare", name: "Spare", volumeM3: null, maximumFillKg: 80_000 };
  const made = await page.session.command("plan.edit", {
    label: "Add Spare",
    reason: "",
    changes: [{ op: "put", kind: "tank", value: tank }],
  });
  if (!made.ok) throw new Error(made.failure.message);
  page.session.select({ kind: "tank", id: "spare" });
  await screen.findByText(/The books of Spare are not open/);
  await page.user.type(screen.getByRole("textbox", { name: "In the tank" }), "62000{Enter}");
  const revision = page.revision();
  await page.user.click(screen.getByRole("button", { name: "Open its books" }));
  await page.saved(revision);
  await waitFor(() => expect(screen.queryByText(/The books of Spare are not open/)).toBeNull());
  expect(await unaccounted()).not.toContain("62000000");
});
