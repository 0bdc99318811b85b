/** Names of nothing, and names that hide something, are refused by the schema of every name. */
import { expect, it } from "vitest";
import { label, note } from "../../../app/ground/quantity.ts";

const sentence = (text: string): string | undefined => label.safeParse(text).error?.issues[0]?.message;

it.each(["   ", "\u00a0", "\u3000", "\u2800", "\u0301"])("%j has nothing to be seen", (name) =>
  expect(sentence(name)).toMatch(/at least one character that can be seen/),
);

it.each([
  "Pack\u200bhorse",
  "\u202eesrohkcaP",
  "Tarn\u2066",
  "Tarn\ufeff",
  "Ta\u00adrn",
  "Tarn\u2028",
  "T\u200d",
  "Tarn\u3164",
])("%j hides something", (name) => expect(sentence(name)).toMatch(/hidden character/));

it.each(["\ud83d", "a\udc00b"])("%j is half a character", (name) => {
  expect(sentence(name)).toMatch(/half a character/);
  expect(note.safeParse(name).success).toBe(false);
});

it.each(["Packhorse 4", "Heron Ⅱ", "زُحَل", "می‌خواهم", "क्‍ष", "👩‍🚀 crew", "Überführung №3", "氷室", "-", "Ñandú"])(
  "%j is a name",
  (name) => expect(label.safeParse(name).success).toBe(true),
);
