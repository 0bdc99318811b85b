/** What a study will take, measured on some of its points. */

export interface StudyCost {
  readonly points: number;
  /** Of one point on one core, s. */
  readonly pointS: number;
  readonly measuredPoints: number;
  readonly cores: number;
  /** On all cores of this machine, s. */
  readonly totalS: number;
}

/** "3 h 20 min", "45 s". */
export const spanWords = (seconds: number): string => {
  if (seconds < 1) return "less than a second";
  if (seconds < 90) return `${Math.round(seconds)} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 90) return `${minutes} min`;
  const hours = Math.round(minutes / 60);
  return hours < 72 ? `${hours} h` : `${Math.round(hours / 24)} days`;
};
