/** Numbers as people type them: read strictly, and told in words when they cannot be taken. */
import { readTyped } from "../../app/format/read-typed.ts";
import { formatNumber } from "../format/number.ts";

export interface NumberRange {
  readonly min: number;
  readonly max: number;
  /** The bound itself is not allowed ("above 0"). */
  readonly isMinOpen?: boolean;
  readonly isWhole?: boolean;
  readonly unit: string;
}

export type NumberReading =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly fault: string };

const withUnit = (value: number, unit: string): string => {
  const text = figure(value);
  return unit === "" ? text : `${text}\u202f${unit}`;
};

/** A number for a field: as many decimals as it has, at most `most`, thousands apart. */
export const figure = (value: number, most = 6): string => {
  const rounded = Number(value.toFixed(most));
  return formatNumber(rounded, Math.min(most, decimalsOf(rounded)));
};

const decimalsOf = (value: number): number => {
  const [, part = "", exponent = "0"] = /^-?\d+(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(String(value)) ?? [];
  return Math.max(0, part.length - Number(exponent));
};

/** "0 to 1 000 kg", "above 0, at most 10 %". */
export const rangeWords = ({ min, max, isMinOpen = false, unit }: NumberRange): string =>
  isMinOpen ? `above ${figure(min)}, at most ${withUnit(max, unit)}` : `${figure(min)} to ${withUnit(max, unit)}`;

/** Reads what was typed; a fault says what is wrong and what may be typed. */
export const readNumber = (text: string, range: NumberRange): NumberReading => {
  if (text.trim() === "") return { ok: false, fault: `A number is needed: ${rangeWords(range)}.` };
  const typed = readTyped(text, range.unit);
  if (!typed.ok) return typed;
  const { value } = typed;
  if (range.isWhole === true && !Number.isInteger(value)) return { ok: false, fault: "A whole number is needed." };
  const isBelow = value < range.min || (range.isMinOpen === true && value === range.min);
  if (isBelow || !(value <= range.max))
    return { ok: false, fault: `${withUnit(value, range.unit)} is out of range: ${rangeWords(range)}.` };
  return { ok: true, value };
};
