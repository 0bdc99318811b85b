/**
 * Numbers as a person types them in a form or on the command line: whatever sign parts thousands or decimals, with or
 * without a unit. What could mean two things is never taken for one of them. Cells of a table, whose decimal sign is known
 * of the whole table, go through the same reader of figures (`readNumber`).
 */
import { readNumber } from "./read-number.ts";
import { formatNumber } from "./number.ts";

export type TypedNumber =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly fault: string };

/** What units may be typed where one is shown, and how many of the shown one they are. */
const families: readonly Readonly<Record<string, number>>[] = [
  // The pound is 0.45359237 kg, exactly (international yard and pound agreement of 1959).
  { g: 0.001, kg: 1, t: 1000, lb: 0.45359237, lbs: 0.45359237 },
  { s: 1 / 86_400, min: 1 / 1440, h: 1 / 24, hour: 1 / 24, hours: 1 / 24, d: 1, day: 1, days: 1 },
  { W: 0.001, kW: 1, MW: 1000 },
  { N: 1, kN: 1000 },
  { Pa: 0.001, kPa: 1, bar: 100, MPa: 1000 },
  { "%": 1, "per cent": 1 },
  { mm: 0.001, cm: 0.01, m: 1, km: 1000 },
  { "m³": 1, m3: 1, L: 0.001, l: 0.001 },
];

const factorOf = (typed: string, shown: string): number | null => {
  if (typed === shown) return 1;
  for (const family of families) {
    const of = (unit: string): number | undefined =>
      family[unit] ?? family[Object.keys(family).find((each) => each.toLowerCase() === unit.toLowerCase()) ?? ""];
    const [from, to] = [of(typed), of(shown)];
    if (from !== undefined && to !== undefined) return from / to;
  }
  return null;
};

const decimalsOf = (value: number): number => {
  const [, part = "", exponent = "0"] = /^-?\d+(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(String(value)) ?? [];
  return Math.min(9, Math.max(0, part.length - Number(exponent)));
};
const shown = (value: number): string => formatNumber(value, decimalsOf(value));

/** One comma and three digits after it: a thousand to some, a decimal to others. */
const TWO_MEANINGS = /^[+-]?[1-9]\d{0,2},\d{3}$/;
/** The figure in front, and what follows it. */
const WITH_UNIT = /^([+-]?[\d.,'’\s]*\d[.,]?(?:e[+-]?\d{1,2})?)\s*([^\d\s.,+-].*)?$/i;

/** `unit`: what is shown beside the field; "": none, and none may be typed. */
export const readTyped = (text: string, unit: string): TypedNumber => {
  const typed = text.trim().replace(/^[\u2212\u2013]/, "-");
  const quoted = `“${text.trim().slice(0, 24)}”`;
  const no = (fault: string): TypedNumber => ({ ok: false, fault });
  const [, figure = "", typedUnit = ""] = WITH_UNIT.exec(typed) ?? [];
  if (figure === "") return no(`${quoted} is not a number. Write it as 1234.5.`);
  const factor = typedUnit === "" ? 1 : factorOf(typedUnit.trim(), unit);
  if (factor === null)
    return no(`${quoted} is not in ${unit === "" ? "a unit that is read here" : unit}. Write the number alone.`);
  if (TWO_MEANINGS.test(figure))
    return no(
      `${quoted} can mean ${shown(readNumber(figure, "point"))} or ${shown(readNumber(figure, "comma"))}. Write ${figure.replace(",", "")} or ${figure.replace(",", ".")}.`,
    );
  const asPoint = readNumber(figure, "point");
  const value = Number.isNaN(asPoint) ? readNumber(figure, "comma") : asPoint;
  if (!Number.isFinite(value)) return no(`${quoted} is not a number. Write it as 1234.5.`);
  // 0.1 t is 100 kg, and not 100.00000000000001.
  return { ok: true, value: factor === 1 ? value : Number((value * factor).toPrecision(15)) };
};
