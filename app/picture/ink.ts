/** The inks that pictures are drawn in, by meaning; a theme has the colour of each for its ground. */
import type { SupplyStatus } from "../supply/answer.ts";

export const inks = [
  "ground",
  "sheet",
  "raised",
  "hairline",
  "rule",
  "edge",
  "ink",
  "ink-soft",
  "accent",
  "accent-ink",
  "accent-wash",
  "status-supplied",
  "status-thin",
  "status-short",
  "propellant-0",
  "propellant-1",
  "propellant-2",
  "propellant-3",
  "propellant-4",
  "propellant-5",
] as const;

/** In the page also the name of a colour token, without its two dashes. */
export type Ink = (typeof inks)[number];

/** Colours and type for one ground. */
export interface Theme {
  readonly colours: Readonly<Record<Ink, string>>;
  /** Families of type, the first that there is. */
  readonly font: string;
}

const propellantInks: readonly Ink[] = [
  "propellant-0",
  "propellant-1",
  "propellant-2",
  "propellant-3",
  "propellant-4",
  "propellant-5",
];

/** The ink of a propellant by its place in the list; the sixth is followed by the first. */
export const propellantInk = (position: number): Ink => propellantInks[position % propellantInks.length] ?? "ink";

export const statusInk: Readonly<Record<SupplyStatus, Ink>> = {
  supplied: "status-supplied",
  thin: "status-thin",
  short: "status-short",
  "not stated": "status-short",
};
