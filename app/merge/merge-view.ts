/** What a person is shown of a merge: plain data, names and masses, for the page and the command line alike. */

/** One mass of a record, kg. */
export interface MassLine {
  readonly label: string;
  readonly propellantId: string | null;
  readonly massKg: number;
}

/** A record as one site has it. */
export interface RecordView {
  /** "Arrival of Packhorse 7". */
  readonly title: string;
  /** When it happened; null: no instant is kept of it. */
  readonly at: number | null;
  /** Who wrote it down, and when; null: not kept (a reading alone, a status). */
  readonly author: string | null;
  readonly recordedAt: number | null;
  readonly note: string;
  /** This site took it back. */
  readonly isTakenBack: boolean;
  readonly masses: readonly MassLine[];
}

/** A mass on both sides, kg; null: that side does not have it. */
export interface ComparedMass {
  readonly label: string;
  readonly propellantId: string | null;
  readonly oursKg: number | null;
  readonly theirsKg: number | null;
}

export interface ConflictView {
  readonly id: string;
  /** "Packhorse 7", "Tarn hydrogen main, 2031-02-20 12:00". */
  readonly about: string;
  /** A sentence: what the two say. */
  readonly words: string;
  readonly ours: readonly RecordView[];
  readonly theirs: readonly RecordView[];
  readonly masses: readonly ComparedMass[];
  /** What "keep both" would do, in words; null: only one can be true. */
  readonly bothWords: string | null;
}

/** How far the plans differ in one kind of row; nothing of it is merged. */
export interface PlanDifference {
  readonly kind: string;
  readonly onlyHere: number;
  readonly onlyThere: number;
  readonly different: number;
}

/** How their plan case differs from ours of the same origin; nothing of it is merged. */
export interface CaseDifference {
  readonly name: string;
  readonly words: readonly string[];
  /** Differences that are not told one by one. */
  readonly more: number;
}

/** A plan case that can be taken over as a new case. */
export interface CaseOffer {
  readonly id: string;
  readonly name: string;
  /** This ledger has a case of that origin, and it differs. */
  readonly isHereToo: boolean;
  readonly flights: number;
  readonly sorties: number;
}

/** What would be written with the decisions as they stand. */
export interface MergeOutcome {
  readonly entries: number;
  readonly takenBack: number;
  /** Levels that stand, booked anew because records come in before them. */
  readonly bookedAnew: number;
  readonly readings: number;
  readonly withdrawn: number;
  /** "Packhorse 7: arrived 2031-02-27". */
  readonly statuses: readonly string[];
  /** Rows of the plan that come along, because records speak of them. */
  readonly rowsAlong: readonly string[];
  /** Why it cannot be written as it stands, a sentence each; empty: it can. */
  readonly blocked: readonly string[];
  readonly isNothing: boolean;
}

export interface MergeView {
  /** Names the state of both ledgers; a merge that was looked at in another state is refused. */
  readonly fingerprint: string;
  readonly fileName: string;
  readonly programme: string;
  /** Who recorded what comes in or stands against ours. */
  readonly authors: readonly string[];
  /** Records that say the same on both sides. */
  readonly alike: number;
  /** Records that only this ledger has. */
  readonly onlyHere: number;
  readonly incomingCount: number;
  /** The first of what comes in, in order of time. */
  readonly incoming: readonly RecordView[];
  readonly conflicts: readonly ConflictView[];
  /** Ids of conflicts that the decisions do not name. */
  readonly undecided: readonly string[];
  readonly planDifferences: readonly PlanDifference[];
  readonly caseDifferences: readonly CaseDifference[];
  readonly cases: readonly CaseOffer[];
  readonly outcome: MergeOutcome;
}
