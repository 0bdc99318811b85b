/** Which character parts the cells of a table of text. */
import type { Separator } from "../../ledger/column-mapping.ts";

export const separatorCharacters: Readonly<Record<Separator, string>> = {
  comma: ",",
  semicolon: ";",
  tab: "\t",
  bar: "|",
};
const MAX_LOOKED_AT = 20_000;

/** How often each separator stands in a line, outside quotes. */
const counts = (line: string): Readonly<Record<Separator, number>> => {
  const bare = line.replace(/"[^"]*"/g, "");
  const count = (separator: Separator): number => bare.split(separatorCharacters[separator]).length - 1;
  return { comma: count("comma"), semicolon: count("semicolon"), tab: count("tab"), bar: count("bar") };
};

/**
 * What parts the cells: of those that stand in the most of the first lines, equally often in each, the one that parts them
 * into the most cells. A comma gives way to the others where they are as good, for it may be a decimal comma.
 */
export const separatorOf = (text: string): Separator => {
  const lines = text
    .slice(0, MAX_LOOKED_AT)
    .split(/\r\n|\r|\n/)
    .filter((line) => line.trim() !== "")
    .slice(0, 12)
    .map(counts);
  const most = (separator: Separator): number => Math.max(0, ...lines.map((line) => line[separator]));
  const steady = (separator: Separator): number =>
    most(separator) === 0 ? 0 : lines.filter((line) => line[separator] === most(separator)).length;
  const candidates: readonly Separator[] = ["tab", "semicolon", "bar", "comma"];
  return candidates.reduce((best, each) => {
    if (steady(each) !== steady(best)) return steady(each) > steady(best) ? each : best;
    return most(each) > most(best) ? each : best;
  });
};
