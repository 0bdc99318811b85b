/** What the answer hangs on: for each input the change of the probability when it is certain and when it is frozen, with intervals. */
import type { Driver, Estimate } from "../../app/risk/answer.ts";
import { max } from "d3-array";
import type { Ink } from "../../app/picture/ink.ts";
import { line, type Picture, type Shape } from "../../app/picture/shape.ts";
import { formatSigned } from "../format/number.ts";

const ROW = 38;
const HEAD = 24;
/** Half-width of a 95 % interval in standard errors. */
const WIDE = 1.96;
const LETTER = 6.6;

export interface NamedDriver {
  readonly name: string;
  readonly driver: Driver;
}

export const driverHeight = (count: number): number => HEAD + count * ROW + 6;

const cut = (text: string, room: number): string => {
  const most = Math.max(4, Math.floor(room / LETTER));
  return text.length <= most ? text : `${text.slice(0, most - 1)}…`;
};

const reach = ({ value, standardError }: Estimate): number => Math.abs(value) + WIDE * standardError;

/** A bar from no change, and over it the interval. */
const bar = (
  { value, standardError }: Estimate,
  y: number,
  x: (share: number) => number,
  look: { readonly ink: Ink; readonly texture: "flat" | "hatched" },
): readonly Shape[] => {
  const [a, b] = [x(Math.min(0, value)), x(Math.max(0, value))];
  const [low, high] = [x(value - WIDE * standardError), x(value + WIDE * standardError)];
  return [
    {
      kind: "area",
      points: [a, y - 5, b, y - 5, b, y + 5, a, y + 5],
      ink: look.ink,
      texture: look.texture,
      alpha: look.texture === "flat" ? 0.6 : 1,
    },
    { kind: "rect", x: a, y: y - 5, width: Math.max(0.5, b - a), height: 10, fill: null, edge: look.ink },
    line(low, y, high, y, "ink", 1.25),
    line(low, y - 3, low, y + 3, "ink", 1.25),
    line(high, y - 3, high, y + 3, "ink", 1.25),
  ];
};

export const driverPicture = (
  rows: readonly NamedDriver[],
  { width, height }: { readonly width: number; readonly height: number },
): Picture => {
  const left = Math.min(280, Math.round(width * 0.36));
  const right = width - 16;
  const most = Math.max(0.001, max(rows, ({ driver }) => Math.max(reach(driver.frozen), reach(driver.certain))) ?? 0);
  const x = (share: number): number => left + ((share + most) / (2 * most)) * (right - left);
  const ticks = [-most, 0, most].flatMap((share): readonly Shape[] => [
    line(x(share), HEAD, x(share), height, share === 0 ? "hairline" : "rule"),
    {
      kind: "text",
      x: x(share),
      y: 10,
      text: share === 0 ? "as it is" : `${formatSigned(share * 100, most < 0.05 ? 1 : 0)} points`,
      ink: "ink-soft",
      size: 11,
      anchor: share < 0 ? "start" : share === 0 ? "middle" : "end",
    },
  ]);
  const shapes = rows.flatMap(({ name, driver }, place): readonly Shape[] => {
    const middle = HEAD + place * ROW + ROW / 2;
    return [
      { kind: "text", x: left - 10, y: middle, text: cut(name, left - 14), ink: "ink", size: 12, anchor: "end" },
      ...bar(driver.certain, middle - 7, x, { ink: "accent", texture: "flat" }),
      ...bar(driver.frozen, middle + 7, x, { ink: "ink-soft", texture: "hatched" }),
    ];
  });
  return { width, height, groups: [{ clip: null, shapes: [...ticks, ...shapes] }] };
};
