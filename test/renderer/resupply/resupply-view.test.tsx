/** The resupply view on the real service: found, taken whole and flight by flight, old after an edit; repair where it is short. */
import "../with-dom.ts";
import { screen, waitFor, within } from "@testing-library/react";
import { afterEach, beforeEach, expect, it } from "vitest";
import { ResupplyView } from "../../../renderer/resupply/resupply-view.tsx";
import { SupplyView } from "../../../renderer/supply/supply-view.tsx";
import { withoutPictures } from "../bare-pictures.ts";
import { openPage } from "../planner-page.tsx";

type Page = Awaited<ReturnType<typeof openPage>>;
let page: Page;
const SLOW = { timeout: 20_000 };

const press = async (name: string | RegExp) => page.user.click(await screen.findByRole("button", { name }, SLOW));
const statuses = () => page.store.get().current?.glance.sorties.map(({ status }) => status);

beforeEach(() => {
  localStorage.clear();
  withoutPictures();
});
afterEach(async () => {
  await page.close();
});

it("finds the flight that is lacking, takes it into the plan, says so, and is found again after undo", async () => {
  page = await openPage(<ResupplyView />);
  expect(statuses()).toContain("short");
  await press("Find plan");
  await screen.findByText(/^1 flight supplies every sortie; it cannot be done with none/, {}, SLOW);
  const changes = screen.getByRole("grid", { name: "What changes, and why" });
  const added = within(changes).getByRole("checkbox", { name: /further 1/ });
  await page.user.click(added);
  expect(
    screen.getByRole<HTMLButtonElement>("button", { name: /^Take 0 of 1 into/ }).hasAttribute("aria-disabled"),
  ).toBe(true);
  await page.user.click(added);
  const before = page.revision();
  await press(/^Take them into/);
  await page.saved(before);
  await screen.findByText(/^The plan has changed since/);
  expect(statuses()).not.toContain("short");
  expect(
    screen.getByRole<HTMLButtonElement>("button", { name: "Take as a new plan case" }).hasAttribute("aria-disabled"),
  ).toBe(true);
  await page.session.undo();
  await waitFor(() => expect(screen.queryByText(/^The plan has changed since/)).toBeNull());
  expect(statuses()).toContain("short");
});

it("takes the proposal as a new case whose own check is told, and leaves the case asked about as it is", async () => {
  page = await openPage(<ResupplyView />);
  await press("Find plan");
  await press("Take as a new plan case");
  await screen.findByText(/^Taken as plan case Baseline, resupplied: Go, if\. All 5 sorties/, {}, SLOW);
  expect(page.store.get().ledger?.planCases.map(({ name }) => name)).toContain("Baseline, resupplied");
  expect(statuses()).toContain("short");
  expect(screen.queryByText(/^The plan has changed since/)).toBeNull();
});

it("says what cannot be held and by how much, and finds a plan with the cure that is pressed", async () => {
  page = await openPage(<ResupplyView />);
  const limit = await screen.findByRole("textbox", { name: "Further flights, at most" });
  await page.user.type(limit, "0{Enter}");
  await press("Find plan");
  await screen.findByText(/Sortie 5 is short by 2\.54.t of oxygen/u, {}, SLOW);
  await press("Find plan with it");
  expect(await screen.findByText(/^1 flight supplies every sortie/, {}, SLOW)).toBeTruthy();
});

it("offers a repair where the sortie is short, and the plan holds once it is taken", async () => {
  page = await openPage(<SupplyView />);
  const repair = await screen.findByRole("region", { name: "Cures and repairs" });
  const [first] = await within(repair).findAllByRole("button", { name: /^Take: .*every sortie is supplied/ }, SLOW);
  const before = page.revision();
  await page.user.click(first!);
  await page.saved(before);
  await waitFor(() => expect(statuses()).not.toContain("short"));
  await waitFor(() => expect(screen.queryByRole("region", { name: "Cures and repairs" })).toBeNull());
});
