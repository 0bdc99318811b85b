/** A margin to be kept above the reserve is a higher reserve for as long as the search goes. */
import { PlanningError } from "../ground/failure.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { formatMass } from "../format/mass.ts";
import type { ResupplyAsked } from "./asked.ts";

/** What stays in a tank without a margin, kg: both count from empty, so the reserve has the heel in it. */
const keptKg = ({ reserveKg, heelKg }: PlanSnapshot["tanks"][number]): number => Math.max(reserveKg, heelKg);

/**
 * The plan in which to be supplied means to keep the margins too: they are put upon the first depot tank of each. Throws
 * "refused" in words where no tank holds the propellant, more is asked than its tanks hold, or the reserve may be used.
 */
export const withMargins = (plan: PlanSnapshot, { margins, goal }: ResupplyAsked): PlanSnapshot => {
  const asked = margins.filter(({ massKg }) => massKg > 0);
  if (asked.length === 0) return plan;
  if (goal === "flies")
    throw new PlanningError(
      "refused",
      "A margin is kept above the reserve: ask for every sortie to be supplied, or for no margin.",
      "margins",
    );
  const raised = new Map<string, number>();
  for (const { propellantId, massKg } of asked) {
    const tanks = plan.tanks.filter((row) => row.ownerKind === "depot" && row.propellantId === propellantId);
    const name = plan.propellants.find(({ id }) => id === propellantId)?.name.toLowerCase() ?? propellantId;
    if (tanks.length === 0)
      throw new PlanningError("refused", `No depot has a tank for ${name}: no margin of it can be kept.`, "margins");
    for (const depot of plan.depots) {
      const own = tanks.filter(({ ownerId }) => ownerId === depot.id);
      const [first] = own;
      if (first === undefined) continue;
      const roomKg = own.reduce((sum, row) => sum + row.maximumFillKg - keptKg(row), 0);
      if (massKg > roomKg)
        throw new PlanningError(
          "refused",
          `${formatMass(massKg)} of ${name} above the reserve is more than ${depot.name} holds: ${formatMass(Math.max(0, roomKg))} above it when full.`,
          "margins",
        );
      raised.set(first.id, massKg);
    }
  }
  return {
    ...plan,
    tanks: plan.tanks.map((row) => {
      const marginKg = raised.get(row.id);
      return marginKg === undefined ? row : { ...row, reserveKg: keptKg(row) + marginKg };
    }),
  };
};
