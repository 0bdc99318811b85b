/** The order of depots at one instant, where flights that take no time hand propellant on: givers before takers. */

/** A flight that departs and arrives at the same instant. */
export interface InstantHop {
  readonly flightId: string;
  readonly at: number;
  readonly fromDepotId: string;
  readonly toDepotId: string;
}

export interface CausalRanks {
  /** Rank of a depot at an instant, 0 unless a hop leads there. */
  rankOf(depotId: string, at: number): number;
  /** Flights that lie on a circle: nothing says which comes first. */
  readonly cyclicFlightIds: readonly string[];
}

/** Longest chain of hops that leads to each depot, instant by instant; flights on a circle are left out of it. */
export const causalRanks = (hops: readonly InstantHop[]): CausalRanks => {
  const ranks = new Map<string, number>();
  const cyclic: string[] = [];
  const key = (depotId: string, at: number) => `${at}/${depotId}`;
  for (const [at, group] of Map.groupBy(hops, (hop) => hop.at)) {
    const reaches = (from: string, to: string, seen = new Set<string>()): boolean =>
      from === to ||
      group.some((hop) => {
        if (hop.fromDepotId !== from || seen.has(hop.toDepotId)) return false;
        seen.add(hop.toDepotId);
        return reaches(hop.toDepotId, to, seen);
      });
    const sound = group.filter((hop) => !reaches(hop.toDepotId, hop.fromDepotId));
    for (const hop of group) if (!sound.includes(hop)) cyclic.push(hop.flightId);
    // As many rounds as hops are enough for the longest chain.
    for (let round = 0; round < sound.length; round += 1)
      for (const hop of sound) {
        const rank = (ranks.get(key(hop.fromDepotId, at)) ?? 0) + 1;
        if (rank > (ranks.get(key(hop.toDepotId, at)) ?? 0)) ranks.set(key(hop.toDepotId, at), rank);
      }
  }
  return {
    rankOf: (depotId, at) => (ranks.size === 0 ? 0 : (ranks.get(key(depotId, at)) ?? 0)),
    cyclicFlightIds: cyclic.toSorted(),
  };
};
