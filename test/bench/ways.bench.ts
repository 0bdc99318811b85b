/** How long it takes to ask the forecast how many tanker flights one way needs: the demonstration, and five busy years. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { heronCached, heronDirect, heronLander, heronMission } from "../../app/demo/heron.ts";
import { demoTarn } from "../../app/demo/tarn.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { planView } from "../../app/ledger/plan-view.ts";
import { demandOf } from "../../app/sortie/demand.ts";
import { sortieSheet } from "../../app/sortie/sheet.ts";
import { planWithDemand } from "../../app/ways/campaign-plan.ts";
import { neededFlights } from "../../app/ways/needed-flights.ts";
import { loadDocument } from "../../db/ledger.ts";
import { runToEnd } from "../app/ways/run-to-end.ts";
import { type Bench, medianOf } from "./bench.ts";
import { campaign, REFERENCE } from "./reference-campaign.ts";

const search = (plan: PlanSnapshot) => {
  const tanker = plan.craftClasses.find(({ id }) => id === "packhorse");
  if (tanker === undefined) throw new Error("the plan has no Packhorse");
  return runToEnd(neededFlights(plan, tanker));
};

/** The reference campaign, with a tanker's usual load as its flights have it, and demands that are so much greater or less. */
const reference = (demandShare: number): PlanSnapshot => {
  const plan = campaign({ ...REFERENCE, plenty: 1.2 });
  const loads = plan.flights[0]?.loads ?? [];
  return {
    ...plan,
    craftClasses: plan.craftClasses.map((row) => ({
      ...row,
      propellants: row.propellants.map((line) => ({
        ...line,
        loadKg:
          row.role === "lander"
            ? line.loadKg * demandShare
            : (loads.find(({ propellantId }) => propellantId === line.propellantId)?.loadedKg ?? 0),
      })),
    })),
  };
};

const demonstrationPlan = (): PlanSnapshot => {
  const folder = mkdtempSync(join(tmpdir(), "coldstock-ways-"));
  try {
    return planView(loadDocument(join(folder, "tarn.coldstock"), demoTarn()), "baseline").plan;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

export const bench: Bench = {
  name: "ways",
  run: () => {
    const tarn = demonstrationPlan();
    const [direct, cached] = [heronDirect, heronCached].map((profile) =>
      planWithDemand(tarn, "heron", demandOf(sortieSheet(heronLander, profile, heronMission, tarn.propellants))),
    );
    if (direct === undefined || cached === undefined) throw new Error("the demonstration has no way to fly");
    const [more, fewer] = [reference(1.3), reference(0.8)];
    const [added, spared] = [search(more), search(fewer)];
    return [
      {
        name: "flights of one way, demonstration, one added",
        value: medianOf(15, () => void search(direct)),
        unit: "ms",
        limit: 100,
      },
      {
        name: "flights of one way, demonstration, two left out",
        value: medianOf(15, () => void search(cached)),
        unit: "ms",
        limit: 100,
      },
      {
        name: "flights of one way, reference campaign, added",
        value: medianOf(5, () => void search(more)),
        unit: "ms",
        limit: 100,
        note:
          added.unmet === null
            ? `${String(added.added.length)} added`
            : `${String(added.added.length)} tried, ${added.unmet.why.kind}`,
      },
      {
        name: "flights of one way, reference campaign, left out",
        value: medianOf(5, () => void search(fewer)),
        unit: "ms",
        limit: 100,
        note: `${String(spared.sparedIds.length)} left out, ${spared.isMostSpared ? "search complete" : "search cut short"}`,
      },
    ];
  },
};
