/** The balance of each propellant over a forecast: what the tanks, flights and sorties say must add up. */
import type { FlightForecast, PropellantBalance, SortieForecast } from "./outcome.ts";

/** One tank's part. */
export interface TankTotals {
  readonly propellantId: string;
  readonly openingKg: number;
  readonly recordedKg: number;
  readonly lostKg: number;
  readonly closingKg: number;
}

const blank = (propellantId: string) => ({
  propellantId,
  openingKg: 0,
  recordedKg: 0,
  inKg: 0,
  boilOffKg: 0,
  inFlightLossKg: 0,
  residualKg: 0,
  handoverLossKg: 0,
  ventedKg: 0,
  keptAboardKg: 0,
  carriedOffKg: 0,
  closingKg: 0,
});

/** kg that the balance does not account for; 0 but for rounding. */
export const imbalanceKg = (balance: PropellantBalance): number =>
  balance.openingKg +
  balance.recordedKg +
  balance.inKg -
  balance.boilOffKg -
  balance.inFlightLossKg -
  balance.residualKg -
  balance.handoverLossKg -
  balance.ventedKg -
  balance.keptAboardKg -
  balance.carriedOffKg -
  balance.closingKg;

/** Masses are asked to add up to this. */
const TOLERANCE_KG = 1e-6;
/** Of what flowed in all: beyond some tonnes by the million, double precision itself is coarser than the tolerance. */
const RELATIVE_TOLERANCE = 1e-12;

/** Propellants whose balance does not close, with the kg that come from nowhere (+) or are gone (−). */
export const unbalanced = (
  balances: readonly PropellantBalance[],
): readonly { readonly propellantId: string; readonly massKg: number }[] =>
  balances.flatMap((balance) => {
    const missing = imbalanceKg(balance);
    const turnedOverKg = balance.openingKg + balance.inKg + Math.abs(balance.recordedKg);
    const isClosed = Math.abs(missing) <= Math.max(TOLERANCE_KG, RELATIVE_TOLERANCE * turnedOverKg);
    // What is not a number closes nothing either.
    return isClosed ? [] : [{ propellantId: balance.propellantId, massKg: 0 - missing }];
  });

export const balancesOf = (
  tanks: readonly TankTotals[],
  flights: readonly FlightForecast[],
  sorties: readonly SortieForecast[],
): readonly PropellantBalance[] => {
  const balances = new Map<string, ReturnType<typeof blank>>();
  const of = (propellantId: string) => {
    const known = balances.get(propellantId) ?? blank(propellantId);
    balances.set(propellantId, known);
    return known;
  };
  for (const tank of tanks) {
    const row = of(tank.propellantId);
    row.openingKg += tank.openingKg;
    row.recordedKg += tank.recordedKg;
    row.boilOffKg += tank.lostKg;
    row.closingKg += tank.closingKg;
  }
  for (const flight of flights)
    for (const line of flight.lines) {
      const row = of(line.propellantId);
      const drawn = line.drawn.reduce((sum, part) => sum + part.massKg, 0);
      row.handoverLossKg += line.originChilldownKg + line.originLossKg;
      if (drawn === 0) row.inKg += line.loadedKg;
      if (line.untilAt === null) row.carriedOffKg += line.loadedKg;
      row.inFlightLossKg += line.inFlightLossKg;
      row.residualKg += line.residualKg;
      row.handoverLossKg += line.chilldownKg + line.handoverLossKg;
      row.keptAboardKg += line.keptAboardKg;
      row.ventedKg += line.ventedKg;
    }
  for (const sortie of sorties)
    for (const line of sortie.lines) {
      const row = of(line.propellantId);
      row.inKg += line.returnedKg;
      row.carriedOffKg += line.loadedKg;
      row.handoverLossKg += line.chilldownKg + line.handoverLossKg;
    }
  return [...balances.values()].toSorted((a, b) => (a.propellantId < b.propellantId ? -1 : 1));
};
