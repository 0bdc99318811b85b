/** What one run over the shards of a study did. */

export interface StudyRun {
  readonly points: number;
  readonly shards: number;
  /** Shards computed now, and those that were whole before. */
  readonly computed: number;
  readonly found: number;
  /** What was there and did not count, and was computed anew. */
  readonly spoiled: readonly { readonly shard: number; readonly why: string }[];
  /** Still open, as an array range; "": none. */
  readonly open: string;
  readonly isStopped: boolean;
}
