/** The study view on the real service: what it takes, the rows, a point as a plan case, old after an edit; what cannot be asked. */
import "../with-dom.ts";
import { screen, waitFor, within } from "@testing-library/react";
import { afterEach, beforeEach, expect, it } from "vitest";
import { parseStudy } from "../../../app/study/resolve.ts";
import { setStudyChoices } from "../../../renderer/state/study-choices.ts";
import { StudyView } from "../../../renderer/study/study-view.tsx";
import { withoutPictures } from "../bare-pictures.ts";
import { openPage } from "../planner-page.tsx";

type Page = Awaited<ReturnType<typeof openPage>>;
let page: Page;
const SLOW = { timeout: 20_000 };

const press = async (name: string | RegExp) => page.user.click(await screen.findByRole("button", { name }, SLOW));
const choose = (study: object) => setStudyChoices(page.store.get().ledger?.path ?? "", parseStudy(study));
const losses = (count: number, inputs: readonly object[] = []) => ({
  name: "study",
  inputs: [{ quantity: "loss factor", values: { kind: "range", from: 0.5, to: 2, count } }, ...inputs],
  design: { kind: "grid" },
  ask: [{ kind: "supply", each: false }],
});

beforeEach(() => {
  localStorage.clear();
  withoutPictures();
});
afterEach(async () => {
  await page.close();
});

it("says what it takes, runs, and opens a point as a case that is supplied as the point is; an edit marks it old", async () => {
  page = await openPage(<StudyView />);
  choose(losses(3, [{ quantity: "sortie cadence", values: { kind: "list", list: [120, 180] } }]));
  await screen.findByText(/^6 points: /, {}, SLOW);
  await press("Run study");
  await page.user.click(await screen.findByRole("tab", { name: "Table" }));
  const table = await screen.findByRole("grid", { name: "The points of the study" }, SLOW);
  await waitFor(() => expect(within(table).getAllByRole("row")).toHaveLength(7), SLOW);
  const row = within(table).getAllByRole("row")[1];
  if (row === undefined) throw new Error("no row");
  const cells = [...row.children].map(({ textContent }) => textContent);
  expect(cells.slice(0, 2)).toEqual(["0.50", "120"]);
  await press("Keep this study");
  await waitFor(
    () => expect(page.store.get().notices.map(({ words }) => words)).toContain("Study 1 is kept in the ledger."),
    SLOW,
  );
  await page.user.click(await screen.findByRole("tab", { name: "Kept studies" }));
  await screen.findByText("of the plan as it is", {}, SLOW);
  await press("Look at it");
  await screen.findByText(/What stands below is study 1/, {}, SLOW);
  await press("Back to the study on screen");
  await page.user.click(await screen.findByRole("tab", { name: "Table" }));
  const again = await screen.findByRole("grid", { name: "The points of the study" }, SLOW);
  await page.user.click(within(again).getAllByRole("gridcell")[0] as HTMLElement);
  await press("Open as a plan case");
  await waitFor(
    () => expect(page.store.get().current?.plan.planCase.name).toMatch(/loss factor.*0\.5, sortie cadence 120/),
    SLOW,
  );
  const statuses = page.store.get().current?.glance.sorties.map(({ status }) => status) ?? [];
  expect(statuses.filter((status) => status === "supplied")).toHaveLength(Number(cells[3]));
  expect(Number(cells[3])).toBeGreaterThan(0);

  page.session.chooseCase("baseline");
  await screen.findByRole("grid", { name: "The points of the study" }, SLOW);
  const [flight] = page.plan().flights.filter(({ status }) => status === "planned");
  if (flight === undefined) throw new Error("no flight");
  const moved = { ...flight, arriveAt: flight.arriveAt + 3_600_000 };
  await page.session.edit("Later", [{ op: "put", kind: "flight", value: moved }]);
  await screen.findByText(/^The plan has changed since/, {}, SLOW);
});

it("asks about a million points with the time they would take, and runs nothing of itself", async () => {
  page = await openPage(<StudyView />);
  choose(losses(1_000_000));
  await screen.findByText(/^1.000.000 points: about \d+/, {}, SLOW);
  await press("Run study");
  await screen.findByText(/Is that meant\?/);
  expect(page.store.get().asked["study"]).toBeUndefined();
});

it("says in words what this plan does not have, and does not run it", async () => {
  page = await openPage(<StudyView />);
  choose({ ...losses(3), inputs: [{ quantity: "reserve", tank: "nowhere", values: { kind: "list", list: [1, 2] } }] });
  await screen.findByText(/The plan has no depot tank nowhere/, {}, SLOW);
  expect(screen.getByRole("button", { name: "Run study" }).getAttribute("aria-disabled")).toBe("true");
});

it("says for each sortie up to where it is supplied", async () => {
  page = await openPage(<StudyView />);
  choose(losses(3));
  await page.user.click(await screen.findByRole("tab", { name: "How far it holds" }));
  expect(await screen.findByText(/Sortie 4 is supplied up to 1\.2\d+ of loss factor/, {}, SLOW)).toBeDefined();
});
