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

const endingOf = (fileName: string): string => /\.([^.\\/]+)$/.exec(fileName)?.[1]?.toLowerCase() ?? "";

/** What a file of this name is; null: nothing that is taken here. */
export const whatIsDropped = (fileName: string): DroppedWhat | null => {
  const ending = endingOf(fileName);
  return Object.hasOwn(droppedKinds, ending) ? droppedKinds[ending as DroppedEnding].what : null;
};

const all: readonly string[] = [...new Set(Object.values(droppedKinds).map(({ words }) => words))];

/** "a ledger (.coldstock), an exported ledger (.json) or …" */
export const droppedWords = `${all.slice(0, -1).join(", ")}, or ${all.at(-1) ?? ""}`;

/** Of a file that no use is known for: what its name says that it is, and what to do. */
export const unreadWords = (fileName: string): string => {
  const ending = endingOf(fileName);
  if (ending === "xls" || ending === "ods")
    return `${fileName} is a spreadsheet in a form that is not read here. Save it as .xlsx or .csv, then drop that.`;
  const what = ending === "" ? "has no ending that says what it is" : `is a .${ending} file, which is not read here`;
  return `${fileName} ${what}. Drop ${droppedWords}.`;
};
