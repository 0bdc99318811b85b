/** The demonstration ledger: the depot Tarn, the lander Heron, the campaign South Rim Survey. Invented throughout. */
import type { LedgerDocument } from "../ledger/ledger-view.ts";
import { heronCached, heronDirect, heronIntegrated, heronRidge } from "./heron.ts";
import { wrenTwoStages } from "./wren.ts";
import {
  tarn,
  tarnClasses,
  tarnCraft,
  tarnLossPeriods,
  tarnPropellants,
  tarnSources,
  tarnTanks,
} from "./tarn-hardware.ts";
import { tarnCampaigns, tarnCases, tarnFlights, tarnSorties } from "./tarn-plan.ts";
import { tarnRiskInputs } from "./tarn-risk.ts";
import { tarnRecords } from "./tarn-records.ts";

/** The whole ledger, the same every time. */
export const demoTarn = (): LedgerDocument => ({
  format: "coldstock-ledger",
  version: 1,
  programme: "South Rim programme (demonstration)",
  isDemonstration: true,
  asOfAt: null,
  entities: {
    propellant: tarnPropellants,
    depot: [tarn],
    source: tarnSources,
    craftClass: tarnClasses,
    profile: [heronDirect, heronCached, heronIntegrated, heronRidge, wrenTwoStages],
    craft: tarnCraft,
    tank: tarnTanks,
    planCase: tarnCases,
    lossPeriod: tarnLossPeriods,
    campaign: tarnCampaigns,
    flight: tarnFlights,
    sortie: tarnSorties,
    riskInput: tarnRiskInputs,
  },
  ...tarnRecords(),
  reportIssues: [],
});
