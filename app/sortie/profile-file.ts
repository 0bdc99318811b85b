/** A profile file: one lander, one profile and what it carries, as JSON, for a sheet without a ledger. */
import { z } from "zod";
import { readJson, UnreadableJson } from "../format/read-json.ts";
import { PlanningError } from "../ground/failure.ts";
import { id, label } from "../ground/quantity.ts";
import { lander } from "../entity/lander.ts";
import { mission, profile } from "../entity/profile.ts";

export const profileFile = z.strictObject({
  propellants: z
    .array(z.strictObject({ id, name: label, densityKgPerM3: z.number().min(10).max(3000) }))
    .min(1)
    .max(12),
  lander,
  profile: profile.pick({ name: true, steps: true, reserve: true, landing: true }),
  mission,
});

export type ProfileFile = Readonly<z.infer<typeof profileFile>>;

/** Reads the text of a profile file. Throws "invalid input" with the place of the first fault. */
export const readProfileFile = (text: string): ProfileFile => {
  let value: unknown;
  try {
    value = readJson(text);
  } catch (error) {
    if (!(error instanceof UnreadableJson)) throw error;
    throw new PlanningError("invalid input", `The profile file is not JSON that can be read: ${error.message}.`);
  }
  const result = profileFile.safeParse(value);
  if (result.success) return result.data;
  const issue = result.error.issues[0];
  const place = issue?.path.map(String).join(".") ?? "";
  throw new PlanningError(
    "invalid input",
    `The profile file cannot be read at ${place === "" ? "its top" : place}: ${issue?.message ?? "wrong form"}.`,
    place,
  );
};
