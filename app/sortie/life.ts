/** A lander's engines through a campaign: ignitions and burn time since they were last changed, and when they are due. */

/** What one sortie uses of the engine that is used most. */
export interface EngineUse {
  readonly sortieId: string;
  readonly landerId: string;
  /** When it leaves. */
  readonly at: number;
  readonly ignitions: number;
  readonly burnSeconds: number;
}

/** All engines of one lander changed for new ones. */
export interface EngineChange {
  readonly landerId: string;
  readonly at: number;
}

export interface EngineRating {
  /** null: not rated. */
  readonly ratedIgnitions: number | null;
  readonly ratedBurnSeconds: number | null;
}

/** The state of the engines after one sortie. */
export interface LifeRow {
  readonly sortieId: string;
  readonly at: number;
  /** Since the last change, this sortie included. */
  readonly ignitions: number;
  readonly burnSeconds: number;
  /** What this sortie would exceed: the engines must be changed before it. */
  readonly exceeds: readonly ("ignitions" | "burn time")[];
}

/** One serial over the campaign. */
export interface EngineLife {
  readonly landerId: string;
  readonly rows: readonly LifeRow[];
  /** The first sortie before which the engines must be changed; null: none. */
  readonly dueBefore: LifeRow | null;
}

/**
 * Adds up the use of each lander in order of time; a change at or before a sortie starts the count anew. An engine is
 * due before the first sortie that would take it over its rating: ten ignitions at three a sortie fall due at the fourth.
 */
export const engineLife = (
  uses: readonly EngineUse[],
  changes: readonly EngineChange[],
  ratingOf: (landerId: string) => EngineRating,
): EngineLife[] => {
  const landerIds = [...new Set(uses.map((use) => use.landerId))];
  return landerIds.map((landerId) => {
    const { ratedIgnitions, ratedBurnSeconds } = ratingOf(landerId);
    const changedAt = changes
      .filter((change) => change.landerId === landerId)
      .map((change) => change.at)
      .sort((a, b) => a - b);
    let since = -Infinity;
    let ignitions = 0;
    let burnSeconds = 0;
    const own = uses.filter((use) => use.landerId === landerId).sort((a, b) => a.at - b.at);
    const rows = own.map((use): LifeRow => {
      const lastChange = changedAt.findLast((at) => at <= use.at) ?? -Infinity;
      if (lastChange > since) {
        since = lastChange;
        ignitions = 0;
        burnSeconds = 0;
      }
      ignitions += use.ignitions;
      burnSeconds += use.burnSeconds;
      const exceeds: ("ignitions" | "burn time")[] = [];
      if (ratedIgnitions !== null && ignitions > ratedIgnitions) exceeds.push("ignitions");
      if (ratedBurnSeconds !== null && burnSeconds > ratedBurnSeconds) exceeds.push("burn time");
      return { sortieId: use.sortieId, at: use.at, ignitions, burnSeconds, exceeds };
    });
    return { landerId, rows, dueBefore: rows.find((row) => row.exceeds.length > 0) ?? null };
  });
};
