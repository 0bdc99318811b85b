/** Mass by leg as a stack: craft and cargo below, the propellants upon it in the order of their place. For pictures. */
import type { Propellant } from "../entity/propellant.ts";
import type { SortieSheet } from "./sheet.ts";

/** One band of the stack: its lower and upper edge before the first leg and after each, kg. */
export interface MassBand {
  readonly name: string;
  /** The propellant's place in the ledger; null: craft and cargo. */
  readonly position: number | null;
  readonly lower: readonly number[];
  readonly upper: readonly number[];
}

/** From below. Empty for a sheet without legs. */
export const massBands = (
  sheet: SortieSheet,
  propellants: readonly Pick<Propellant, "id" | "name" | "position">[],
): MassBand[] => {
  const [first] = sheet.legs;
  if (first === undefined) return [];
  const stocks = [first.stockBeforeKg, ...sheet.legs.map((leg) => leg.stockAfterKg)];
  const masses = [first.massBeforeKg, ...sheet.legs.map((leg) => leg.massAfterKg)];
  let floor = masses.map((mass, state) => mass - (stocks[state] ?? []).reduce((sum, kg) => sum + kg, 0));
  const bands: MassBand[] = [{ name: "craft and cargo", position: null, lower: floor.map(() => 0), upper: floor }];
  const order = sheet.lines
    .map(({ propellantId }, index) => ({ index, propellant: propellants.find(({ id }) => id === propellantId) }))
    .toSorted((a, b) => (a.propellant?.position ?? 99) - (b.propellant?.position ?? 99));
  for (const { index, propellant } of order) {
    const lower = floor;
    const upper = lower.map((kg, state) => kg + (stocks[state]?.[index] ?? 0));
    const name = propellant?.name ?? sheet.lines[index]?.propellantId ?? "";
    bands.push({ name, position: propellant?.position ?? 5, lower, upper });
    floor = upper;
  }
  return bands;
};
