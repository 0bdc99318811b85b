/** A plan case of theirs taken over whole, as a new case of ours: its rows under ids of their own, keys as they are. */
import { PlanningError } from "../ground/failure.ts";
import { copyCase } from "../ledger/case-copy.ts";
import type { Change, Entity, EntitySet } from "../entity/entities.ts";
import { referencesOf } from "../ledger/rules/reference.ts";
import { bringRows } from "./rows-along.ts";
import { rankOf } from "./status-news.ts";

const MAX_NAME = 80;

/** A name that no case of ours has: "North", else "North (2)". */
const freeName = (name: string, taken: ReadonlySet<string>): string => {
  for (let n = 1; ; n += 1) {
    const end = n === 1 ? "" : ` (${n})`;
    const free = `${name.slice(0, MAX_NAME - end.length)}${end}`;
    if (!taken.has(free)) return free;
  }
};

/** What happened is the same in every case: a flight or sortie that ours has keeps what ours says of it. */
const asRecordedHere = (change: Change, plan: EntitySet): Change => {
  if (change.op !== "put") return change;
  if (change.kind === "flight") {
    const here = plan.flight.find((row) => row.key === change.value.key);
    if (here === undefined || rankOf(here.status) + rankOf(change.value.status) === 0) return change;
    const { departAt, arriveAt, loads } = here;
    // A status of theirs that was not taken over (a conflict, decided for ours) is a plan again here.
    const status = rankOf(here.status) > 0 ? here.status : "planned";
    return { ...change, value: { ...change.value, status, departAt, arriveAt, loads } };
  }
  if (change.kind === "sortie") {
    const here = plan.sortie.find((row) => row.key === change.value.key);
    if (here === undefined || rankOf(here.status) + rankOf(change.value.status) === 0) return change;
    const status = rankOf(here.status) > 0 ? here.status : "planned";
    return { ...change, value: { ...change.value, status, loadAt: here.loadAt, returnAt: here.returnAt } };
  }
  return change;
};

/** The changes that take the cases over; `plan`: ours as it is with the joined records. Throws "not found". */
export const takeCases = (
  plan: EntitySet,
  theirs: EntitySet,
  caseIds: readonly string[],
  freshId: (kind: string) => string,
): readonly Change[] => {
  const names = new Set(plan.planCase.map(({ name }) => name));
  return caseIds.flatMap((fromId, index) => {
    const from = theirs.planCase.find(({ id }) => id === fromId);
    if (from === undefined)
      throw new PlanningError(
        "not found",
        `There is no plan case ${fromId} in the other ledger.`,
        `takeCases.${index}`,
      );
    const name = freeName(from.name, names);
    names.add(name);
    const newId = freshId("plancase");
    const copied = copyCase(theirs, { fromId, newId, name }, freshId);
    const position = 1 + index + Math.max(-1, ...plan.planCase.map((row) => row.position));
    const changes = copied.map((change): Change => {
      if (change.op === "put" && change.kind === "planCase") {
        const isFromHere = plan.planCase.some(({ id }) => id === fromId);
        return { ...change, value: { ...change.value, position, basedOnId: isFromHere ? fromId : null } };
      }
      return asRecordedHere(change, plan);
    });
    const own = new Set(changes.map((change) => (change.op === "put" ? change.value.id : change.id)));
    const wanted = changes.flatMap((change) =>
      change.op === "put" ? referencesOf(change.kind, change.value as Entity<typeof change.kind>) : [],
    );
    return [
      ...bringRows(
        plan,
        theirs,
        wanted.filter(({ id }) => !own.has(id)),
      ),
      ...changes,
    ];
  });
};
