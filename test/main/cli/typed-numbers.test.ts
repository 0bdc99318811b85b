/** Numbers of options are read as in the forms: what could mean two things is refused with both, never taken for one. */
import { expect, it } from "vitest";
import { namedNumbers } from "../../../main/cli/named-numbers.ts";
import { typedNumber } from "../../../main/cli/typed-number.ts";

const margins = (text: string) => {
  const among = ["oxygen", "hydrogen"].map((id) => ({ id, name: id }));
  return namedNumbers(text, among, "--margin", "propellant", "kg", "oxygen=200").map(({ id, value }) => [id, value]);
};

it("“17,000” is refused with both meanings", () => {
  expect(() => typedNumber("17,000", "kg", "--of", "--of is a mass.")).toThrow(
    "--of is a mass. “17,000” can mean 17\u202f000 or 17. Write 17000 or 17.000.",
  );
  expect(() => margins("oxygen=17,000, hydrogen=50")).toThrow(/“17,000” can mean 17\u202f000 or 17/);
});

it("“17 t” is 17,000 kg, and another kind of unit is refused", () => {
  expect(margins("oxygen=17 t, hydrogen=1,5 kg")).toEqual([
    ["oxygen", 17_000],
    ["hydrogen", 1.5],
  ]);
  expect(typedNumber("36 h", "days", "--for", "")).toBe(1.5);
  expect(() => margins("oxygen=5 days")).toThrow(/“5 days” is not in kg/);
});

it("nothing is no margin", () => expect(margins("")).toEqual([]));

it.each(["twelve", "oxygen", "oxygen=", "=200", "oxygen=-1"])("“%s” is refused", (text) =>
  expect(() => margins(text)).toThrow(/--margin is a propellant, = and a number: oxygen=200\./),
);
