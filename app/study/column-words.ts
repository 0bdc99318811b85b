/** What the columns of a study are called where they stand alone, and in what their figures are. */
import type { StudyAnswer } from "./study-answer.ts";

/** The unit of a probability, 0 to 1: people are shown per cent. */
export const SHARE = "share";

/** What the columns of counts are called where they stand alone. */
const plain: Readonly<Record<string, string>> = {
  supplied: "sorties supplied",
  thin: "sorties thin",
  short: "sorties short",
  fly: "sorties that fly",
  flights: "fewest flights",
  breaks: "things that break",
};

export const columnWords = ({ columns }: Pick<StudyAnswer, "columns">, column: number): string => {
  const name = columns[column]?.name ?? "";
  return plain[name] ?? name;
};

const shares = /^all fly( when planned)?(: error)?$|: flies when planned$/;

/** The unit of a column's figures: what its column says, and {@link SHARE} for the probabilities, which say nothing. */
export const columnUnit = ({ columns, inputs }: Pick<StudyAnswer, "columns" | "inputs">, column: number): string => {
  const { name = "", unit = "" } = columns[column] ?? {};
  return column >= inputs.length && unit === "" && shares.test(name) ? SHARE : unit;
};
