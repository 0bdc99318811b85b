/**
 * Names that cannot be read as they stand are refused. The characters are those that the Unicode Standard (chapter 23,
 * "Special Areas and Format Characters"; Annex 9 for the marks of direction) lists as format characters; from memory.
 */
import { describe, expect, it } from "vitest";
import { label, note } from "../../../app/ground/quantity.ts";

const isTaken = (name: string): boolean => label.safeParse(name).success;

describe("a name", () => {
  it.each([
    ["turned from right to left (override)", "Tarn \u202edrac"],
    ["embedded the other way", "\u202bTarn"],
    ["isolated and never ended", "\u2066Tarn"],
    ["with a mark of direction", "Tarn\u200f"],
    ["with an Arabic mark of direction", "Tarn\u061c"],
    ["with a space of no width", "Ta\u200brn"],
    ["with a joiner between digit and sign, where no script has one", "Tarn \u200d- 2"],
    ["with a byte-order mark", "\ufeffTarn"],
    ["with a soft hyphen", "Ta\u00adrn"],
    ["with a line separator", "Tarn\u2028two"],
    ["with half a surrogate pair, high", "Tarn\ud83d"],
    ["with half a surrogate pair, low", "\ude80Tarn"],
    ["of a space of no width alone", "\u200b"],
    ["of spaces alone", "   "],
    ["of spaces of other widths alone", "\u2003\u3000\u00a0"],
    ["of a Hangul filler alone", "\u3164"],
    ["of a blank braille cell alone", "\u2800"],
    ["with a control character", "Tarn\u0007"],
  ])("%s is refused", (_what, name) => expect(isTaken(name)).toBe(false));

  it.each(["Tarn", "Dépôt nº 2", "Склад", "仓库", "المستودع", "می‌خواهم", "क्‍ष", "🚀 Heron 1", "👩‍🚀", "O’Neill – 2"])(
    "%s is taken",
    (name) => expect(isTaken(name)).toBe(true),
  );
});

it("a note may turn about in its own lines, and has no half characters", () => {
  expect(note.safeParse("שלום, Tarn\nsecond line").success).toBe(true);
  expect(note.safeParse("half \ud83d").success).toBe(false);
});
