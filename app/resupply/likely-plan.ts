/**
 * A plan under which all sorties fly when planned with a probability of at least p. A plan that holds with any k flights
 * lost fails only where more than k are, or where something else goes wrong: that is the certificate; how likely the
 * plan is, is for the risk run to say. That no cheaper plan is as likely is not proved by this.
 */
import type { Estimate } from "../risk/answer.ts";
import type { Judged, ResupplyAnswer } from "./answer.ts";
import type { ResupplyAsked } from "./asked.ts";

/** Half-width of a 95 % interval in standard errors; with all of n replications good, by the rule of three. */
const WIDE = 1.96;
const THREE = 3;

/** The lower end of the 95 % interval of a share of so many replications. */
export const surelyAtLeast = ({ value, standardError }: Estimate, replications: number): number =>
  replications === 0 ? 0 : value === 1 ? 1 - THREE / replications : value - WIDE * standardError;

export interface LikelyScene {
  plan(asked: ResupplyAsked): Promise<ResupplyAnswer>;
  /** How likely the plan is with a proposal taken. */
  judge(answer: ResupplyAnswer): Promise<{ readonly share: Estimate; readonly replications: number }>;
}

/** The first of the plans with none, one, two of the flights lost that is likely enough; else the likeliest of them. */
export const likelyPlan = async (
  asked: ResupplyAsked,
  chance: number,
  { plan, judge }: LikelyScene,
): Promise<ResupplyAnswer> => {
  const judged: Judged[] = [];
  let best: ResupplyAnswer | null = null;
  for (const lost of [0, 1, 2] as const) {
    if (lost < asked.lost) continue;
    const answer = await plan({ ...asked, lost, chance: null });
    // What is not held at all is no more likely with flights lost.
    if (answer.standing !== "plan" || answer.proposed === null) {
      best ??= answer;
      break;
    }
    const { share, replications } = await judge(answer);
    const isBetter = judged.every((row) => row.share.value < share.value);
    const row = { lost, flights: answer.proposed.flights, share, replications };
    if (isBetter) judged.push(row);
    else judged.unshift(row);
    if (isBetter || best === null) best = answer;
    if (surelyAtLeast(share, replications) >= chance)
      return {
        ...answer,
        chance: { asked: chance, judged: [...judged.filter((other) => other !== row), row], isReached: true },
      };
    if (answer.isStopped) break;
  }
  if (best === null) return await plan({ ...asked, chance: null });
  return { ...best, chance: { asked: chance, judged, isReached: false } };
};
