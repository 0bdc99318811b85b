/** Engines by their numbers, in words. */

/** "engine 3", "engines 1, 2 and 4". */
export const engineNames = (numbers: readonly number[]): string =>
  numbers.length < 2
    ? `engine ${numbers.join("")}`
    : `engines ${numbers.slice(0, -1).join(", ")} and ${String(numbers.at(-1))}`;

/** "Heron 1", or of a further stage "stage Descent of Heron 1". */
export const stageOfCraft = (craft: string, stage: string | null): string =>
  stage === null ? craft : `stage ${stage} of ${craft}`;

/** "needs new engines" where it is all `of` them, else "needs engine 3 changed", "needs engines 1 and 2 changed". */
export const neededEngines = (numbers: readonly number[], of: number): string => {
  if (numbers.length >= of) return of === 1 ? "needs a new engine" : "needs new engines";
  return `needs ${engineNames(numbers)} changed`;
};
