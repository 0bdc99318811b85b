/** Adding, moving, removing and replacing steps of a profile, and their words. */
import { describe, expect, test } from "vitest";
import { heronCached, heronDirect, heronLander } from "../../../app/demo/heron.ts";
import { addStep, moveStep, removeStep, replaceStep } from "../../../renderer/craft/profile/edit-steps.ts";
import { stepSummary } from "../../../renderer/craft/profile/step-words.ts";

const names = (steps: readonly { readonly name: string }[]) => steps.map(({ name }) => name);
const { steps } = heronDirect;

describe("adding", () => {
  test("puts the step after the one that is shown, and shows it", () => {
    const next = addStep(steps, 1, "stay", heronLander);
    expect(next.at).toBe(2);
    expect(next.steps[2]).toMatchObject({ kind: "stay", days: 1 });
    expect(next.steps).toHaveLength(steps.length + 1);
  });

  test("begins an empty list", () => {
    expect(addStep([], 0, "burn", heronLander)).toMatchObject({ at: 0, steps: [{ kind: "burn" }] });
  });

  test("adds a cache with both its ends, under a name of its own", () => {
    const once = addStep(steps, 2, "leave cache", heronLander);
    const twice = addStep(once.steps, 3, "leave cache", heronLander);
    const caches = twice.steps.flatMap((step) => ("cache" in step ? [`${step.kind} ${step.cache}`] : []));
    expect(caches).toEqual([
      "leave cache low orbit",
      "leave cache low orbit 2",
      "take up cache low orbit",
      "take up cache low orbit 2",
    ]);
  });
});

test("removing one end of a cache removes the other, and nothing else", () => {
  const leave = heronCached.steps.findIndex(({ kind }) => kind === "leave cache");
  expect(names(removeStep(heronCached.steps, leave).steps)).toEqual(names(steps));
});

test("removing the last step shows the one before", () => {
  expect(removeStep(steps, steps.length - 1).at).toBe(steps.length - 2);
});

test("moving keeps all steps, and stops at both ends", () => {
  const { steps: moved, at } = moveStep(steps, 0, 2);
  expect(at).toBe(2);
  expect(names(moved).slice(0, 3)).toEqual([
    "leave the halo orbit, enter low orbit",
    "coast to low orbit",
    "undock and back away",
  ]);
  expect(moveStep(moved, 2, 0).steps).toEqual(steps);
  expect(moveStep(steps, 0, -1)).toEqual({ steps, at: 0 });
});

test("renaming a cache renames its other end", () => {
  const at = heronCached.steps.findIndex(({ kind }) => kind === "leave cache");
  const leave = heronCached.steps[at]!;
  const next = replaceStep(heronCached.steps, at, { ...leave, cache: "station" } as typeof leave);
  expect(next.steps.filter((step) => "cache" in step && step.cache === "station")).toHaveLength(2);
});

test("a step says in a line what it does", () => {
  expect(steps.map(stepSummary)).toEqual([
    "5\u202fm/s",
    "740\u202fm/s",
    "1 day, 3.0\u202fkW",
    "2\u202f076\u202fm/s, +5\u202f%",
    "cargo off",
    "12 days, 4.0\u202fkW",
    "cargo aboard",
    "1\u202f874\u202fm/s, +5\u202f%",
    "850\u202fm/s",
    "1 day, 3.0\u202fkW",
    "45\u202fm/s",
  ]);
});
