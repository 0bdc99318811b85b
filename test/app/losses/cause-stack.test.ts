/** Losses stack upwards, finds downwards, each from the line outwards. */
import { expect, it } from "vitest";
import { causeStack } from "../../../app/losses/cause-stack.ts";

it("stacks losses above the line and what was found again below it", () => {
  expect(
    causeStack({ boilOffGrams: 300_000, handoverLossGrams: 20_000, ventedGrams: 0, unaccountedGrams: -5_000 }),
  ).toEqual([
    { cause: "boilOffGrams", lowKg: 0, highKg: 300 },
    { cause: "handoverLossGrams", lowKg: 300, highKg: 320 },
    { cause: "unaccountedGrams", lowKg: -5, highKg: 0 },
  ]);
});

it("hangs a second find under the first", () => {
  expect(
    causeStack({ boilOffGrams: -2_000, handoverLossGrams: 0, ventedGrams: 7_000, unaccountedGrams: -3_000 }),
  ).toEqual([
    { cause: "boilOffGrams", lowKg: -2, highKg: 0 },
    { cause: "ventedGrams", lowKg: 0, highKg: 7 },
    { cause: "unaccountedGrams", lowKg: -5, highKg: -2 },
  ]);
});
