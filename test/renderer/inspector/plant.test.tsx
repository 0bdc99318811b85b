/** The plant's form on the real service: figures as one types, duty, and its loads made into flights as one step. */
import "../with-dom.ts";
import { screen, waitFor, within } from "@testing-library/react";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { PlantFlightsDialog } from "../../../renderer/depots/plant-flights-dialog.tsx";
import { PlantTable } from "../../../renderer/depots/plant-table.tsx";
import { Inspector } from "../../../renderer/inspector/inspector.tsx";
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
  vi.unstubAllGlobals();
});

const field = (name: string) => screen.getByRole<HTMLInputElement>("textbox", { name });
const type = async (name: string, text: string) => {
  await page.user.clear(field(name));
  await page.user.type(field(name), text);
};
const plantOf = () => page.plan().sources.find(({ id }) => id === "rim-plant")!.plant!;
const select = async () => {
  page.session.select({ kind: "source", id: "rim-plant" });
  await screen.findByRole("heading", { level: 2, name: "Rim plant" });
};

it("shows pairs and power with every stroke; one kg of water is 0.727394 kg of pairs at 5.5 (F); committed as one step", async () => {
  page = await openPage(<Inspector />);
  await select();
  const result = screen.getByRole("status", { name: "Made on a day of duty" });
  for (const [name, text] of [
    ["Recovered", "100{Enter}"],
    ["Mixture ratio", "5.5{Enter}"],
    ["Fuel cells", "0{Enter}"],
  ] as const) {
    const revision = page.revision();
    await type(name, text);
    await page.saved(revision);
  }
  await type("Water", "1000");
  // Not committed yet, and already shown.
  expect(plantOf().waterKgPerDay).toBe(320);
  expect(result.textContent).toContain("727.4\u202fkg/day of pairs");
  const revision = page.revision();
  await page.user.keyboard("{Enter}");
  await page.saved(revision);
  expect(plantOf().waterKgPerDay).toBe(1000);
  expect(screen.getByText(/Hydrogen sets the amount/)).toBeTruthy();
  await type("Mixture ratio", "9");
  expect(screen.getByText(/Oxygen sets the amount/)).toBeTruthy();
  await page.session.undo();
  await waitFor(() => expect(plantOf().waterKgPerDay).toBe(320));
});

it("what cannot be is said at its field and not written", async () => {
  page = await openPage(<Inspector />);
  await select();
  const before = plantOf();
  await type("Recovered", "120{Enter}");
  expect(await screen.findByText(/out of range/)).toBeTruthy();
  expect(plantOf()).toEqual(before);
});

it("a period of duty is added and removed", async () => {
  page = await openPage(<Inspector />);
  await select();
  const before = plantOf().duty;
  let revision = page.revision();
  await page.user.click(screen.getByRole("button", { name: "Add a period" }));
  await page.saved(revision);
  expect(plantOf().duty).toHaveLength(3);
  expect(plantOf().duty[2]!.fromAt).toBeGreaterThan(plantOf().duty[1]!.untilAt);
  revision = page.revision();
  await page.user.click(screen.getAllByRole("button", { name: /Remove the duty/ })[2]!);
  await page.saved(revision);
  expect(plantOf().duty).toEqual(before);
});

it("its loads become flights that were shown before, in one step; undo takes all of them back", async () => {
  page = await openPage(
    <>
      <PlantFlightsDialog
        request={{ action: "plan.plantFlights", subject: { kind: "source", id: "rim-plant" }, at: null }}
        close={() => undefined}
      />
    </>,
  );
  const dialog = screen.getByRole("dialog");
  const preview = within(dialog).getByRole("grid", { name: "Flights to be made" });
  const shown = within(preview).getAllByRole("row").length - 1;
  expect(within(dialog).getByText("Sortie 5 goes from short to supplied.")).toBeTruthy();
  const before = page.plan().flights.length;
  const revision = page.revision();
  await page.user.click(within(dialog).getByRole("button", { name: new RegExp(`^Make ${shown} flight`) }));
  await page.saved(revision);
  const made = page.plan().flights.filter(({ origin }) => origin.kind === "source" && origin.sourceId === "rim-plant");
  expect(made).toHaveLength(shown);
  expect(page.plan().flights).toHaveLength(before + shown);
  await page.session.undo();
  await waitFor(() => expect(page.plan().flights).toHaveLength(before));
});

it("a direct line says that it is connected at a port, and comes with its craft in one step", async () => {
  page = await openPage(
    <PlantFlightsDialog request={{ action: "plan.plantFlights", subject: null, at: null }} close={() => undefined} />,
  );
  const dialog = screen.getByRole("dialog");
  await page.user.click(within(dialog).getByRole("button", { name: /tanker flights/ }));
  await page.user.click(await screen.findByRole("option", { name: /a direct line/ }));
  expect(within(dialog).getByText(/connected at one of Tarn's 2 ports/)).toBeTruthy();
  const revision = page.revision();
  await page.user.click(within(dialog).getByRole("button", { name: "Make the line" }));
  await page.saved(revision);
  expect(page.plan().craftClasses.some(({ id }) => id === "rim-plant-line")).toBe(true);
  await page.session.undo();
  await waitFor(() => expect(page.plan().craftClasses.some(({ id }) => id === "rim-plant-line")).toBe(false));
});

it("the table has a row a plant with its figures; a plant is added from there and described at once", async () => {
  page = await openPage(
    <>
      <Inspector />
      <Plants />
    </>,
  );
  const grid = screen.getByRole("grid", { name: /Plants/ });
  expect(within(grid).getAllByRole("row")).toHaveLength(2);
  // 320 kg of water, 92 % of it (F): 294.4/8.93601 = 32.945 kg; the fuel cells' water is split again.
  expect(within(grid).getByText("32.9")).toBeTruthy();
  await page.user.click(screen.getByRole("button", { name: "Add a plant…" }));
  const revision = page.revision();
  await page.user.click(within(screen.getByRole("dialog")).getByRole("button", { name: "Add" }));
  await page.saved(revision);
  expect(page.plan().sources.find(({ name }) => name === "Plant 1")?.plant?.duty).toHaveLength(1);
});

const Plants = () => <PlantTable plan={page.plan()} />;
