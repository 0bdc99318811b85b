/** What the notice after an import says. */
import { expect, it } from "vitest";
import { importedWords } from "../../../renderer/exchange/imported-words.ts";

it.each([
  ["flights", 5, 0, "5 flights added"],
  ["flights", 1, 2, "1 flight added, 2 changed"],
  ["sorties", 0, 3, "3 sorties changed"],
  ["readings", 0, 1, "1 reading changed"],
  ["readings", 1200, 0, "1\u202f200 readings added"],
] as const)("of %s, %i new and %i changed: “%s”", (kind, newRows, changedRows, words) => {
  expect(importedWords({ kind, newRows, changedRows })).toBe(words);
});
