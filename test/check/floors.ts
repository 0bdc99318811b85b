/**
 * The order of floors of `app`, written once: a room may import from its own floor's rooms only itself, and from every
 * floor below. The gate, the drawing in DEVELOPERS.md and nobody's memory follow it.
 */

/** The lowest floor first. Rooms that share a floor do not import each other. */
export const appFloors: readonly (readonly string[])[] = [
  ["ground"],
  ["format", "orbits"],
  ["words"],
  ["fluid"],
  ["entity"],
  ["ephemeris", "storage"],
  ["sortie"],
  ["work"],
  ["forecast"],
  ["ledger"],
  ["ways"],
  ["supply"],
  ["losses", "plant"],
  ["risk"],
  ["resupply"],
  ["records"],
  ["merge"],
  ["report"],
  ["exchange"],
  ["copies", "demo"],
  ["contract"],
];

/** The same as a drawing for people, the highest floor first; it stands in DEVELOPERS.md, and the gate compares. */
export const floorDrawing = (): string =>
  [...appFloors]
    .map((rooms, floor) => `${String(floor + 1).padStart(2)}  ${rooms.join("   ")}`)
    .toReversed()
    .join("\n");
