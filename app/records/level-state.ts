/** What a tank holds at an instant, in whole grams: by the books, and by the loss model. */
import type { EntitySet } from "../entity/entities.ts";
import type { Tank } from "../entity/tank.ts";
import { toGrams, toKg } from "../ledger/journal.ts";
import { levelAt } from "../ledger/past.ts";
import { gramsOn } from "./entry-on-tank.ts";
import { gramsUntil } from "./split-flows.ts";
import { recordedPlan } from "./subject.ts";
import type { RecordBooks } from "./recorder.ts";

export interface TankGrams {
  readonly bookGrams: number;
  /** Never above the books: what the model has lost is not there. */
  readonly modelGrams: number;
}

/** Rounding of the model may not make mass: it stays at or under the books, and at or above nothing. */
export const tankGrams = (entities: EntitySet, books: RecordBooks, tank: Tank, at: number): TankGrams => {
  const running = books.flowsAcross(tank.id, at).map((entry) => ({
    sinceAt: entry.sinceAt ?? at,
    massKg: toKg(gramsUntil(entry, gramsOn(entry, tank.id), at)),
  }));
  const { modelKg, bookKg } = levelAt(recordedPlan(entities), books, tank, at, running);
  const bookGrams = toGrams(bookKg);
  return { bookGrams, modelGrams: Math.max(0, Math.min(bookGrams, toGrams(modelKg))) };
};
