/** How fast the forecast and the supply check are on the reference campaign, and what a daily spreadsheet makes of it. */
import { compile } from "../../app/forecast/compile.ts";
import { levelAt } from "../../app/forecast/curve.ts";
import { forecast } from "../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { createEngine } from "../../app/forecast/propagate.ts";
import { STATUS } from "../../app/forecast/run.ts";
import { check } from "../../app/supply/check.ts";
import { glance } from "../../app/supply/glance.ts";
import { type Bench, type BenchFigure, median, medianOf } from "./bench.ts";
import { dailyStep, dockedLosses, sheetOf } from "./daily-step.ts";
import { REFERENCE, campaign, referenceCampaign } from "./reference-campaign.ts";

const DAY = 86_400_000;
const CAMPAIGNS = 200;

/** The sheet's worst error in any level at a day's end, kg, and whether a sortie's answer differs. */
const compare = (plan: PlanSnapshot): { readonly worstKg: number; readonly flips: boolean } => {
  const engine = createEngine(compile(plan));
  const run = engine.go();
  const isShort = plan.sorties.map((row) => run.sortieStatus[run.plan.sortieIds.indexOf(row.id)] === STATUS.short);
  const sheet = dailyStep(sheetOf(plan, run.plan, run.lineDeliverableKg), dockedLosses(plan));
  const flips = plan.sorties.some((row, n) => sheet.shortIds.has(row.id) !== isShort[n]);
  const { levels } = forecast(plan);
  let worstKg = 0;
  for (const tank of plan.tanks) {
    const segments = levels.find((row) => row.tankId === tank.id)?.segments ?? [];
    for (const row of sheet.rows) {
      const error = Math.abs(
        (row.levelsKg[tank.propellantId] ?? 0) - levelAt(segments, plan.asOfAt + (row.day + 1) * DAY - 1),
      );
      if (error > worstKg) worstKg = error;
    }
  }
  return { worstKg, flips };
};

const spreadsheet = (plan: PlanSnapshot): readonly BenchFigure[] => {
  const run = createEngine(compile(plan)).go();
  const sheet = sheetOf(plan, run.plan, run.lineDeliverableKg);
  const losses = dockedLosses(plan);
  const compared = Array.from({ length: CAMPAIGNS }, (_, seed) =>
    compare(campaign({ ...REFERENCE, plenty: 1.03 }, seed + 1)),
  );
  const flipped = compared.filter((row) => row.flips).length;
  return [
    {
      name: "the same by a daily-step loop over plain objects",
      value: medianOf(15, () => void dailyStep(sheet, losses), 5),
      unit: "ms",
      ratioTo: "one forecast with its supply statuses",
    },
    {
      name: "daily step: worst error of a level, median campaign",
      value: median(compared.map((row) => row.worstKg)),
      unit: "kg",
      note: "a delivery or a draw on the wrong side of midnight counts whole",
    },
    {
      name: "daily step: campaigns in which a sortie's answer flips",
      value: (100 * flipped) / CAMPAIGNS,
      unit: "%",
      note: `${CAMPAIGNS} random campaigns`,
    },
  ];
};

export const bench: Bench = {
  name: "forecast",
  run: () => {
    const plan = referenceCampaign();
    const engine = createEngine(compile(plan));
    const metered = createEngine(compile(campaign({ ...REFERENCE, rateKgPerDay: 8000 })));
    let minutes = 0;
    return [
      {
        name: "compiling the reference campaign",
        value: medianOf(25, () => void compile(plan), 40),
        unit: "ms",
        limit: 0.3,
      },
      {
        name: "one forecast with its supply statuses",
        value: medianOf(25, () => void engine.go(), 1000),
        unit: "ms",
        limit: 0.02,
      },
      {
        name: "one forecast, every handover metered",
        value: medianOf(25, () => void metered.go(), 300),
        unit: "ms",
        ratioTo: "one forecast with its supply statuses",
      },
      {
        name: "one forecast with a slipping flight and other loss rates",
        value: medianOf(
          25,
          () => {
            minutes = (minutes + 17) % 20_000;
            engine.input.flightSlipMs[40] = minutes * 60_000;
            engine.input.rateFactor.fill(1 + minutes / 50_000);
            engine.go();
          },
          1000,
        ),
        unit: "ms",
        ratioTo: "one forecast with its supply statuses",
      },
      {
        name: "a drag frame's computing: compile, forecast with all segments, statuses, findings",
        value: medianOf(15, () => void glance(plan, forecast(plan)), 5),
        unit: "ms",
        limit: 4,
      },
      {
        name: "the full check with slack and hinges of all sorties",
        value: medianOf(7, () => void check(plan)),
        unit: "ms",
        limit: 150,
      },
      ...spreadsheet(plan),
    ];
  },
};
