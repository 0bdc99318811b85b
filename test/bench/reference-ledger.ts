/** The reference campaign as a ledger file, for benches that go through a host. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { LedgerDocument } from "../../app/ledger/ledger-view.ts";
import { toGrams } from "../../app/ledger/journal.ts";
import { loadDocument } from "../../db/ledger.ts";
import { referenceCampaign } from "./reference-campaign.ts";

/** A campaign as a whole ledger. */
export const referenceDocument = (plan: PlanSnapshot = referenceCampaign()): LedgerDocument => {
  const tankOf = (tankId: string) => {
    const tank = plan.tanks.find((candidate) => candidate.id === tankId);
    if (tank === undefined) throw new Error(`no tank ${tankId}`);
    return tank;
  };
  const source = plan.sources[0];
  if (source === undefined) throw new Error("the campaign has no source");
  return {
    format: "coldstock-ledger",
    version: 1,
    programme: "Reference campaign",
    isDemonstration: false,
    asOfAt: plan.asOfAt,
    entities: {
      propellant: plan.propellants,
      depot: plan.depots,
      source: plan.sources,
      craftClass: plan.craftClasses,
      profile: plan.profiles,
      craft: plan.craft,
      tank: plan.tanks,
      planCase: [plan.planCase],
      lossPeriod: plan.lossPeriods,
      campaign: plan.campaigns,
      flight: plan.flights,
      sortie: plan.sorties,
      riskInput: plan.riskInputs,
    },
    entries: plan.opening.map(({ tankId, massKg }) => ({
      id: `opening-${tankId}`,
      at: plan.asOfAt,
      kind: "opening",
      subjectKey: null,
      reversesId: null,
      note: "",
      author: "bench",
      recordedAt: plan.asOfAt,
      postings: [
        {
          account: { kind: "source", ownerId: source.id },
          propellantId: tankOf(tankId).propellantId,
          grams: -toGrams(massKg),
        },
        {
          account: { kind: "tank", ownerId: tankId },
          propellantId: tankOf(tankId).propellantId,
          grams: toGrams(massKg),
        },
      ],
    })),
    readings: [],
    reportIssues: [],
  };
};

/** Writes it. */
export const writeReferenceLedger = (path: string, plan?: PlanSnapshot): void =>
  loadDocument(path, referenceDocument(plan)).close();
