/** What a person decides of a merge, as the contract takes it. */
import { z } from "zod";
import { id } from "../ground/quantity.ts";

/** Of a conflict: ours stays; theirs comes in and ours is taken back by a counter-entry; both stand, where that can be. */
export const choice = z.enum(["keep ours", "take theirs", "keep both"]);
export type Choice = z.infer<typeof choice>;

export const decision = z.strictObject({ conflictId: z.string().max(40), choice });
export type Decision = Readonly<z.infer<typeof decision>>;

export const mergeChoices = {
  decisions: z.array(decision).max(100_000),
  /** Their plan cases to be taken over as new ones. */
  takeCases: z.array(id).max(100),
};

export const mergeChoicesInput = z.strictObject(mergeChoices);
export type MergeChoices = Readonly<z.infer<typeof mergeChoicesInput>>;
