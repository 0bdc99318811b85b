/** How many tanker flights each way to fly the sortie needs: the question, and its answer way by way. */
import { z } from "zod";
import { PlanningError } from "../ground/failure.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { id, label, massKg } from "../ground/quantity.ts";
import { type Leading, stopped, type Working } from "../work/working.ts";
import { planWithDemand } from "./campaign-plan.ts";
import { type NeededFlights, neededFlights } from "./needed-flights.ts";

export const waysAsked = z.strictObject({
  /** The lander class whose planned sorties are flown that way. */
  classId: id,
  /** The tanker class whose usual flights are added. */
  tankerId: id,
  ways: z
    .array(
      z.strictObject({
        name: label,
        demand: z.array(z.strictObject({ propellantId: id, loadKg: massKg, returnKg: massKg })).max(12),
      }),
    )
    .max(60),
});
export type WaysAsked = z.infer<typeof waysAsked>;
export type AskedWay = WaysAsked["ways"][number];

export interface NeededOfWay {
  readonly name: string;
  readonly needed: NeededFlights;
}

/** One way, searched to its end. Throws "not found" for a tanker that is not there, "cancelled" when it is stopped. */
export const neededOfWay = (plan: PlanSnapshot, asked: WaysAsked, way: AskedWay, working: Working): NeededOfWay => {
  const tanker = plan.craftClasses.find((row) => row.id === asked.tankerId);
  if (tanker === undefined) throw new PlanningError("not found", "This tanker is no longer there.", "tankerId");
  const search = neededFlights(planWithDemand(plan, asked.classId, way.demand), tanker);
  for (;;) {
    const step = search.next();
    if (step.done === true) return { name: way.name, needed: step.value };
    if (working.shouldStop()) throw stopped();
  }
};

/** All ways, each a part; what is found so far is told. Throws "cancelled" when it is stopped. */
export const neededOfWays = async (
  asked: WaysAsked,
  { tell, runParts }: Leading<readonly NeededOfWay[], AskedWay, NeededOfWay>,
): Promise<readonly NeededOfWay[]> => {
  const soFar: NeededOfWay[] = [];
  const answers = await runParts(asked.ways, (done) => {
    soFar.push(done);
    tell({
      share: soFar.length / asked.ways.length,
      words: "Looking for the flights each way needs",
      partial: [...soFar],
    });
  });
  return answers.map((answer) => {
    if (answer === null) throw stopped();
    return answer;
  });
};
