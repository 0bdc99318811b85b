/** What a new ledger can begin with. */
import type { Outline, OutlinePropellant } from "./outline.ts";
import { type PropellantSort, tabledPropellants } from "../names/tabled-propellants.ts";

export const templateIds = ["two", "three", "empty", "tarn", "beck"] as const;
export type TemplateId = (typeof templateIds)[number];

export interface Template {
  readonly id: TemplateId;
  readonly name: string;
  readonly note: string;
  /** What is asked before it is made; null: nothing more than the programme. */
  readonly outline: Outline | null;
  /** The demonstration that is copied without its records; null: none. */
  readonly copyOf: "tarn" | "beck" | null;
}

const unsaid = (what: PropellantSort): OutlinePropellant => ({
  what,
  volumeM3: null,
  ullagePercent: null,
  openingKg: null,
  reserveKg: null,
  lossPercentPerDay: null,
  broughtKg: [null, null],
  neededKg: null,
  returnedKg: null,
});

/** Names that stand for nothing real; no figure is given in advance, so that none is taken for the planner's own. */
const outlineOf = (propellants: readonly PropellantSort[]): Outline => ({
  depot: "Depot",
  lander: "Lander",
  daysAway: null,
  beginsAt: null,
  propellants: propellants.map(unsaid),
  tankers: ["Tanker A", "Tanker B"].map((name) => ({ name, transitDays: null, berthDays: null })),
});

const [hydrogen, oxygen, methane] = tabledPropellants;

export const templates: readonly Template[] = [
  {
    id: "two",
    name: "Depot with two propellants, a lander, two tankers",
    note: "asks for the figures of each",
    outline: outlineOf([hydrogen, oxygen]),
    copyOf: null,
  },
  {
    id: "three",
    name: "Depot with three propellants, a lander, two tankers",
    note: "asks for the figures of each",
    outline: outlineOf([hydrogen, oxygen, methane]),
    copyOf: null,
  },
  { id: "empty", name: "Nothing", note: "a list of steps leads on", outline: null, copyOf: null },
  {
    id: "tarn",
    name: "Copy of the demonstration Tarn without its records",
    note: "invented figures",
    outline: null,
    copyOf: "tarn",
  },
  {
    id: "beck",
    name: "Copy of the demonstration Beck without its records",
    note: "invented figures",
    outline: null,
    copyOf: "beck",
  },
];
