/** What may be dropped on the window, by the ending of its name. A new kind is a line here and what the page does with it. */

const ROWS = "rows of flights, sorties or readings (.csv, .tsv, .xlsx)";

export const droppedKinds = {
  coldstock: { what: "ledger", words: "a ledger (.coldstock)" },
  json: { what: "document", words: "an exported ledger (.json)" },
  csv: { what: "rows", words: ROWS },
  tsv: { what: "rows", words: ROWS },
  xlsx: { what: "rows", words: ROWS },
  ics: { what: "rows", words: "a calendar of flights (.ics)" },
} as const;

export type DroppedEnding = keyof typeof droppedKinds;
export type DroppedWhat = (typeof droppedKinds)[DroppedEnding]["what"];

/** What a file of this name is; null: nothing that is taken here. */
export const whatIsDropped = (fileName: string): DroppedWhat | null => {
  const ending = /\.([^.\\/]+)$/.exec(fileName)?.[1]?.toLowerCase() ?? "";
  return Object.hasOwn(droppedKinds, ending) ? droppedKinds[ending as DroppedEnding].what : null;
};

const all: readonly string[] = [...new Set(Object.values(droppedKinds).map(({ words }) => words))];

/** "a ledger (.coldstock), an exported ledger (.json) or …" */
export const droppedWords = `${all.slice(0, -1).join(", ")}, or ${all.at(-1) ?? ""}`;
