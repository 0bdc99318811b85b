/** Paper has fewer inks than a screen: which of them each ink by meaning is, and their colours by day and by night. */
import type { Ink, Theme } from "./ink.ts";

/** Also the names of the variables in the style of a page of HTML. */
export type PaperInk =
  | "text"
  | "quiet"
  | "hairline"
  | "ground"
  | "warning"
  | "first"
  | "second"
  | "third"
  | "fourth"
  | "fifth"
  | "sixth";

export const paperInkOf: Readonly<Record<Ink, PaperInk>> = {
  ground: "ground",
  sheet: "ground",
  raised: "ground",
  hairline: "hairline",
  rule: "hairline",
  edge: "quiet",
  ink: "text",
  "ink-soft": "quiet",
  accent: "first",
  "accent-ink": "ground",
  "accent-wash": "hairline",
  "status-supplied": "text",
  "status-thin": "warning",
  "status-short": "warning",
  "propellant-0": "first",
  "propellant-1": "second",
  "propellant-2": "third",
  "propellant-3": "fourth",
  "propellant-4": "fifth",
  "propellant-5": "sixth",
};

/** On white paper. */
export const paperColours: Readonly<Record<PaperInk, string>> = {
  text: "#1c1f2a",
  quiet: "#5a5f6b",
  hairline: "#b9b5ac",
  ground: "#ffffff",
  warning: "#8f1d16",
  first: "#1f7aa6",
  second: "#3d2a8c",
  third: "#0f5a35",
  fourth: "#b0641c",
  fifth: "#7d4a57",
  sixth: "#1d2f38",
};

/** Of a page of HTML that is read in the dark. */
export const nightColours: Readonly<Record<PaperInk, string>> = {
  text: "#ece7dd",
  quiet: "#aeb2bb",
  hairline: "#4d5565",
  ground: "#161b26",
  warning: "#f0917f",
  first: "#8fb6d6",
  second: "#8d86e0",
  third: "#a8f0d8",
  fourth: "#d99552",
  fifth: "#e3d6a0",
  sixth: "#c49aa8",
};

const eachInk = (valueOf: (ink: PaperInk) => string): Readonly<Record<Ink, string>> =>
  Object.fromEntries(Object.entries(paperInkOf).map(([ink, paper]) => [ink, valueOf(paper)])) as Record<Ink, string>;

export const paperTheme: Theme = { colours: eachInk((ink) => paperColours[ink]), font: "sans-serif" };

/** The inks as variables of a page that gives them their colours. */
export const inkVariables = eachInk((ink) => `var(--${ink})`);
