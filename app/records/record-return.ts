/**
 * A lander came home: what it has left goes into its tanks. Of the rest its profile says what boiled off and what crew and
 * power took; what remains was burned.
 */
import type { RecordInput } from "./record-input.ts";
import { PlanningError } from "../ground/failure.ts";
import type { Change } from "../entity/entities.ts";
import { findEntity } from "../entity/entity-index.ts";
import { accountId, toGrams, toKg } from "../ledger/journal.ts";
import type { Step } from "../ledger/books.ts";
import { entryOf, gramsByPropellant, line } from "./postings.ts";
import { landerTank } from "./record-loading.ts";
import { type RecordBooks, type Recorder, stepOf } from "./recorder.ts";
import { withRestatement } from "./restate.ts";
import { sortieUses, usedOf } from "./sortie-uses.ts";
import { sortieEverywhere, sortieIn } from "./subject.ts";

export const recordReturn = (books: RecordBooks, input: RecordInput<"record.return">, recorder: Recorder): Step => {
  const entities = books.entities();
  const sortie = sortieIn(entities, input.sortieId, ["departed"]);
  if (input.at < sortie.loadAt)
    throw new PlanningError("refused", `${sortie.name} cannot return before it left.`, "at");
  const aboard = gramsByPropellant(input.aboard, "aboard");
  input.aboard.forEach(({ propellantId }, i) => {
    if (findEntity(entities, "propellant", propellantId) === null)
      throw new PlanningError("not found", `There is no propellant ${propellantId}.`, `aboard.${i}.propellantId`);
  });
  const uses = sortieUses(entities, sortie);
  const newTanks: Change[] = [];
  const lines = entities.propellant.flatMap(({ id, name }) => {
    const left = toGrams(books.balanceKg(accountId({ kind: "transit", ownerId: sortie.key }), id));
    const home = aboard.get(id) ?? 0;
    if (home > left)
      throw new PlanningError(
        "refused",
        `${sortie.name} left with ${toKg(left)} kg of ${name}; it cannot come home with ${toKg(home)} kg.`,
        "aboard",
      );
    if (left === 0) return [];
    const { tank, isNew } = landerTank(entities, sortie.landerId, id);
    if (isNew) newTanks.push({ op: "put", kind: "tank", value: tank });
    const used = usedOf(uses.get(id), left - home);
    return [
      line("transit", sortie.key, id, -left),
      line("tank", tank.id, id, home),
      line("boil-off", sortie.landerId, id, used.boilOffGrams),
      line("consumed", sortie.landerId, id, used.consumedGrams),
      line("residual", sortie.landerId, id, used.leftBehindGrams),
      line("burned", sortie.landerId, id, used.burnedGrams),
    ];
  });
  const moved = lines.filter((posting) => posting.grams !== 0);
  const entry = entryOf({ at: input.at, kind: "return", subjectKey: sortie.key, note: input.note }, moved, recorder);
  const changes = sortieEverywhere(entities, sortie.key, (row) => ({ ...row, status: "flown", returnAt: input.at }));
  const draft = {
    label: `${sortie.name} came home`,
    changes: [...newTanks, ...changes],
    entries: entry === null ? [] : [entry],
  };
  return stepOf(withRestatement(books, draft, recorder), recorder);
};
