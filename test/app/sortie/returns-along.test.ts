/** A sortie's return follows its profile's stays unless it was stated; in every plan case, and never one already flown. */
import { expect, test } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import type { Change, Entity } from "../../../app/entity/entities.ts";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import { withReturnsAlong } from "../../../app/sortie/returns-along.ts";

const { entities: rows } = demoTarn();
const entities = { ...rows, riskInput: [] };
const direct = entities.profile.find(({ id }) => id === "heron-direct")!;
const days = ({ loadAt, returnAt }: Entity<"sortie">): number => (returnAt - loadAt) / DAY_MS;
const longer: Entity<"profile"> = {
  ...direct,
  steps: direct.steps.map((step) =>
    step.kind === "stay" && step.name === "on the surface" ? { ...step, days: step.days + 3 } : step,
  ),
};
const sorties = (changes: readonly Change[]) =>
  changes.flatMap((change) => (change.op === "put" && change.kind === "sortie" ? [change.value] : []));

test("the demonstration's sorties are away for as long as their profiles: 12 days on the surface and one each way", () => {
  for (const sortie of entities.sortie) expect(days(sortie)).toBe(14);
  const stays = direct.steps.flatMap((step) => (step.kind === "stay" ? [step.days] : []));
  expect(stays).toEqual([1, 12, 1]);
});

test("a profile three days longer takes along all that fly it and follow it, in every case; the flown one stays", () => {
  const moved = sorties(withReturnsAlong(entities, [{ op: "put", kind: "profile", value: longer }]));
  const flying = entities.sortie.filter(
    ({ demand, status }) => demand.kind === "profile" && demand.profileId === direct.id && status === "planned",
  );
  expect(new Set(moved.map(({ id }) => id))).toEqual(new Set(flying.map(({ id }) => id)));
  expect(new Set(moved.map(({ planCaseId }) => planCaseId))).toEqual(new Set(["baseline", "extra-packhorse"]));
  for (const sortie of moved) expect(days(sortie)).toBe(17);
});

test("a stated return stays, whether the profile or the demand changes", () => {
  const [first, ...others] = entities.sortie.filter(({ status }) => status === "planned");
  const stated = { ...first!, returnAt: first!.loadAt + 20 * DAY_MS };
  const own = { ...entities, sortie: [stated, ...others] };
  const moved = sorties(withReturnsAlong(own, [{ op: "put", kind: "profile", value: longer }]));
  expect(moved.some(({ id }) => id === stated.id)).toBe(false);
  const now = { ...stated, demand: { kind: "class" as const } };
  expect(sorties(withReturnsAlong(own, [{ op: "put", kind: "sortie", value: now }]))).toEqual([now]);
});

test("a sortie that takes another profile takes its length too; one whose return is typed with it keeps what was typed", () => {
  const sortie = entities.sortie.find(({ status }) => status === "planned")!;
  const short: Entity<"profile"> = { ...longer, id: "short", steps: [{ ...longer.steps[2]!, days: 4 } as never] };
  const own = { ...entities, profile: [...entities.profile, short] };
  const demand = { ...sortie.demand, profileId: "short" } as Entity<"sortie">["demand"];
  const changed = (value: Entity<"sortie">) =>
    sorties(withReturnsAlong(own, [{ op: "put", kind: "sortie", value }]))[0]!;
  expect(days(changed({ ...sortie, demand }))).toBe(4);
  expect(days(changed({ ...sortie, demand, returnAt: sortie.loadAt + 9 * DAY_MS }))).toBe(9);
});
