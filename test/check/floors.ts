/**
 * The order of floors of `app` and of `renderer`, written once: a room may import from its own floor's rooms only itself,
 * and from every floor below. The gate, the drawings in DEVELOPERS.md and nobody's memory follow it.
 */

type Floors = readonly (readonly string[])[];

/** The lowest floor first. Rooms that share a floor do not import each other. */
const appFloors: Floors = [
  ["ground"],
  ["format", "orbits"],
  ["words"],
  ["fluid"],
  ["entity"],
  ["ephemeris", "fields", "storage"],
  ["sortie"],
  ["work"],
  ["forecast"],
  ["ledger"],
  ["ways"],
  ["supply"],
  ["losses", "plant"],
  ["risk"],
  ["resupply"],
  ["records", "study"],
  ["merge", "picture"],
  ["report"],
  ["exchange"],
  ["copies", "demo"],
  ["contract"],
];

/** Views and dialogs share a floor, so that none imports another; what two of them need lies below. */
const rendererFloors: Floors = [
  ["bridge", "format", "theme"],
  ["actions", "charts", "names"],
  ["state"],
  ["widgets"],
  ["editing", "entries", "plot"],
  ["fit", "heat", "uncertainty"],
  ["forms"],
  ["repair", "start"],
  [
    "copies",
    "craft",
    "depots",
    "drop",
    "exchange",
    "journal",
    "losses",
    "merge",
    "plan-cases",
    "records",
    "reports",
    "resupply",
    "risk",
    "study",
    "supply",
    "timeline",
    "watch",
  ],
  ["about", "find", "handbook", "what-if"],
  ["inspector"],
  ["dialogs.ts", "views.ts"],
  ["shell"],
  ["main.tsx"],
];

/** The folders that stand on floors. A file beside the rooms counts as a room of its own, under its name. */
export const floorsOf: Readonly<Record<string, Floors>> = { app: appFloors, renderer: rendererFloors };

const WIDTH = 96;

/** Names in rows of at most `WIDTH` characters; the rows after the first are moved in under it. */
const rowsOf = (names: readonly string[]): string => {
  const rows: string[] = [];
  for (const name of names) {
    const last = rows.at(-1);
    if (last !== undefined && last.length + name.length + 3 <= WIDTH) rows[rows.length - 1] = `${last}   ${name}`;
    else rows.push(name);
  }
  return rows.join("\n    ");
};

/** The same as a drawing for people, the highest floor first; it stands in DEVELOPERS.md, and the gate compares. */
export const floorDrawing = (floors: Floors): string =>
  floors
    .map((rooms, floor) => `${String(floor + 1).padStart(2)}  ${rowsOf(rooms)}`)
    .toReversed()
    .join("\n");
