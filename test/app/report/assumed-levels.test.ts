/** On paper, too, what rests on an overdue event is told from what was recorded. */
import { expect, test } from "vitest";
import { stripOf } from "../../../app/report/section/level-strips.ts";
import { buildReport } from "../../../app/report/build.ts";
import { exampleContext } from "./example.ts";

const DAY = 86_400_000;

/** The example with its flight to arrive ten days before the as-of instant, and no record of it. */
const late = () => {
  const context = exampleContext();
  const { view, supply } = context.main;
  const { asOfAt } = view.plan;
  const flights = view.plan.flights.map((flight) => ({
    ...flight,
    status: "departed" as const,
    departAt: asOfAt - 20 * DAY,
    arriveAt: asOfAt - 10 * DAY,
  }));
  const findings = [...supply.findings, { kind: "overdue" as const, id: "f1", at: asOfAt }];
  return {
    ...context,
    main: { ...context.main, view: { ...view, plan: { ...view.plan, flights } }, supply: { ...supply, findings } },
  };
};

const captions = (context: ReturnType<typeof exampleContext>): readonly string[] =>
  buildReport(context).sections.flatMap(({ blocks }) =>
    blocks.flatMap((block) => (block.kind === "chart" ? [block.caption ?? ""] : [])),
  );

test("the level is dotted from the event on, and the caption says why", () => {
  const context = late();
  const { asOfAt } = context.main.view.plan;
  const pool = { depotId: "tarn", propellantId: "hydrogen", name: "" };
  const strip = stripOf(context, pool, { title: "", name: "" })!;
  expect(strip.source.assumed).toMatchObject([{ fromAt: asOfAt - 10 * DAY, untilAt: asOfAt }]);
  expect(strip.hasAssumed).toBe(true);
  expect(captions(context).join("\n")).toMatch(/dotted: assumed as planned, without a record of what is overdue/);
});

test("where nothing is overdue nothing is dotted", () => {
  expect(captions(exampleContext()).join("\n")).not.toMatch(/dotted/);
});
