/** What hangs on a thing, and the order in which all of it is removed. */
import { expect, it } from "vitest";
import { entityKinds } from "../../../app/entity/entities.ts";
import { applyChanges } from "../../../app/entity/plan-changes.ts";
import { rowsOf } from "../../../renderer/names/entity-words.ts";
import { dependentWords, dependents, removals } from "../../../renderer/inspector/references.ts";
import { smallPlan } from "../timeline/small-plan.ts";

const ids = (refs: ReturnType<typeof dependents>) => refs.map(({ kind, id }) => `${kind} ${id}`).sort();

it("a flight stands alone", () => expect(dependents([smallPlan()], [{ kind: "flight", id: "flight-1" }])).toEqual([]));

it("a craft class takes its craft along, and what those fly", () =>
  expect(ids(dependents([smallPlan()], [{ kind: "craftClass", id: "egret" }]))).toEqual([
    "craft egret-1",
    "sortie sortie-1",
    "sortie sortie-2",
  ]));

it("other plan cases count, each row once", () => {
  const plan = smallPlan();
  const [first] = plan.flights;
  const other = smallPlan({
    planCase: { ...plan.planCase, id: "other" },
    flights: [{ ...first!, id: "other.flight-1", planCaseId: "other" }],
    sorties: [],
    campaigns: [],
  });
  const refs = dependents([plan, other], [{ kind: "craft", id: "wagon" }]);
  expect(refs).toHaveLength(4);
  expect(dependentWords(refs)).toBe("4 flights");
});

it("a depot's fall is told in the order of the list", () =>
  expect(dependentWords(dependents([smallPlan()], [{ kind: "depot", id: "shelf" }]))).toBe(
    "2 tanks, 1 loss period, 3 flights and 2 sorties",
  ));

it("whatever is removed, nothing that stays refers to what is gone", () => {
  const plan = smallPlan();
  for (const kind of entityKinds) {
    if (kind === "planCase") continue;
    for (const { id } of rowsOf(plan, kind)) {
      const going = dependents([plan], [{ kind, id }]);
      const changes = removals([{ kind, id }, ...going]);
      // Step by step: what refers to a row must have gone before the row.
      let rest = plan;
      for (const change of changes) {
        if (change.op !== "remove") throw new Error("only removals");
        expect(dependents([rest], [{ kind: change.kind, id: change.id }])).toEqual([]);
        rest = applyChanges(rest, [change]);
      }
      expect(changes).toHaveLength(going.length + 1);
    }
  }
});
