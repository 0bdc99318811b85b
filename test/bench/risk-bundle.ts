/** What the benches of the risk share: the kernel bundled as it ships, the uncertain inputs, and the campaign with hulls. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Uncertainty } from "../../app/entity/risk-input.ts";
import { compile } from "../../app/forecast/compile.ts";
import { createEngine } from "../../app/forecast/propagate.ts";
import { withBundled } from "./bundled.ts";
import { referenceCampaign } from "./reference-campaign.ts";

export type Bundled = typeof import("./risk-in-bundle.ts");

const every = { kind: "every" } as const;
const DAY_MS = 86_400_000;

export const drawn: readonly Uncertainty[] = [
  { quantity: "flight slip", of: every, law: { kind: "exponential", noneShare: 0.4, meanDays: 12 } },
  { quantity: "flight loss", of: every, law: { kind: "probability", probability: 0.03 } },
  { quantity: "boil-off", of: every, law: { kind: "log-normal factor", sigma: 0.2 } },
];
export const everything: readonly Uncertainty[] = [
  ...drawn,
  { quantity: "grounding", of: every, law: { kind: "exponential", noneShare: 0, meanDays: 30 } },
  { quantity: "sortie slip", of: every, law: { kind: "exponential", noneShare: 0.5, meanDays: 5 } },
  { quantity: "sortie demand", of: every, law: { kind: "log-normal factor", sigma: 0.02 } },
  {
    quantity: "cooler",
    of: every,
    law: { kind: "failures", meanBetweenDays: 540, meanRepairDays: 20, kPerDay: 0.005, cKgPerDay: 0 },
  },
];

/** Bundles the kernel with the yardstick into one file, loads it and gives it to `use`, with its path. */
export const withBundle = <T>(use: (kernel: Bundled, path: string) => T | Promise<T>): Promise<T> =>
  withBundled(
    new URL("./risk-in-bundle.ts", import.meta.url),
    async (file) => await use((await file.load()) as Bundled, file.path),
  );

/** Hulls of their own, so that a loss costs one flight and a grounding, as in the prototype. */
const withHulls = (plan: PlanSnapshot): PlanSnapshot => {
  const hulls = plan.flights.map((row) => ({
    ...(plan.craft.find(({ id }) => id === row.craftId) ?? plan.craft[0]!),
    id: `hull-${row.id}`,
    name: row.name,
  }));
  return {
    ...plan,
    craft: [...plan.craft, ...hulls],
    flights: plan.flights.map((row) => ({ ...row, craftId: `hull-${row.id}` })),
  };
};

/** The reference campaign of the risk. */
export const riskCampaign = (): PlanSnapshot => withHulls(referenceCampaign());

/** The yardstick of that campaign, with the same laws as `drawn`. */
export const yardstickOf = (
  { createYardstick }: Bundled,
  plan: PlanSnapshot,
): ReturnType<Bundled["createYardstick"]> => {
  const compiled = compile(plan);
  return createYardstick(compiled, createEngine(compiled).go().lineDeliverableKg, {
    noneShare: 0.4,
    meanSlipMs: 12 * DAY_MS,
    lossShare: 0.03,
    factorSigma: 0.2,
  });
};
