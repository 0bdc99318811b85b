/**
 * What the reader of workbooks does not tell: cells shown in per cent, formulas without a stored value, sheets and rows
 * that are hidden (ECMA-376, SpreadsheetML). Works on the XML as text, one letter a byte: only ASCII is looked at.
 */
import { FORMULA_WITHOUT_VALUE } from "../../app/exchange/rows/source-table.ts";

export interface HiddenParts {
  /** Of each sheet in the workbook's order. */
  readonly isHidden: readonly boolean[];
  readonly hiddenRows: readonly number[];
}

const attribute = (tag: string, name: string): string | null =>
  new RegExp(String.raw`\s${name}="([^"]*)"`).exec(tag)?.[1] ?? null;

/** Built-in number formats 9 and 10 are 0 % and 0.00 %; others are told by their code. */
const percentStyles = (styles: string): ReadonlySet<number> => {
  const formats = new Set([9, 10]);
  for (const [tag] of styles.matchAll(/<numFmt\s[^>]*>/g)) {
    const code = (attribute(tag, "formatCode") ?? "").replace(/&quot;[^&]*&quot;|\\./g, "");
    if (code.includes("%")) formats.add(Number(attribute(tag, "numFmtId")));
  }
  const cellFormats = /<cellXfs\b[^>]*>([\s\S]*?)<\/cellXfs>/.exec(styles)?.[1] ?? "";
  const found = new Set<number>();
  [...cellFormats.matchAll(/<xf\b[^>]*>/g)].forEach(([tag], index) => {
    if (formats.has(Number(attribute(tag, "numFmtId")))) found.add(index);
  });
  return found;
};

const EMPTY_FORMULA = /<c\b([^>]*)>\s*<f\b(?:[^>]*\/>|[^>]*>[^<]*<\/f>)\s*(?:<v\s*\/>|<v>\s*<\/v>)?\s*<\/c>/g;
const FIGURE_CELL = /(<c\b[^>]*>(?:<f\b(?:[^>]*\/>|[^>]*>[^<]*<\/f>))?\s*<v>)([^<]+)(<\/v>)/g;

/** 0.07 × 100 is 7, and not 7.000000000000001. */
const inPercent = (figure: string): string =>
  Number.isFinite(Number(figure)) ? String(Number((Number(figure) * 100).toPrecision(15))) : figure;

/** A sheet with figures shown in per cent as per cent, and formulas without a value as words that say so, with the cell. */
const readableSheet = (xml: string, percent: ReadonlySet<number>): string => {
  const told = xml.includes("<f")
    ? xml.replace(EMPTY_FORMULA, (_cell, attributes: string) => {
        const place = attribute(attributes, "r") ?? "";
        return `<c r="${place}" t="str"><v>${FORMULA_WITHOUT_VALUE} ${place}</v></c>`;
      })
    : xml;
  if (percent.size === 0) return told;
  return told.replace(FIGURE_CELL, (cell, before: string, figure: string, after: string) => {
    const [tag = ""] = /^<c\b[^>]*>/.exec(before) ?? [];
    const style = attribute(tag, "s");
    const type = attribute(tag, "t");
    const isFigure = type === null || type === "n";
    return isFigure && style !== null && percent.has(Number(style)) ? `${before}${inPercent(figure)}${after}` : cell;
  });
};

const textOf = (bytes: Uint8Array | undefined): string =>
  bytes === undefined ? "" : Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("latin1");

const isSheet = (name: string): boolean => /worksheets\/[^/]+\.xml$/i.test(name);

/** Changes the parts in place; what is hidden is answered. */
export const readCellsAsShown = (parts: Record<string, Uint8Array>): HiddenParts => {
  const percent = percentStyles(textOf(parts["xl/styles.xml"]));
  const hiddenRowsOf = new Map<string, number>();
  for (const [name, bytes] of Object.entries(parts)) {
    if (!isSheet(name)) continue;
    const xml = textOf(bytes);
    const rows = [...xml.matchAll(/<row\b[^>]*>/g)].filter(([tag]) =>
      /^(1|true)$/.test(attribute(tag, "hidden") ?? ""),
    );
    hiddenRowsOf.set(name.replace(/^.*worksheets\//i, "").toLowerCase(), rows.length);
    const readable = readableSheet(xml, percent);
    if (readable !== xml) parts[name] = Buffer.from(readable, "latin1");
  }
  const targets = new Map(
    [...textOf(parts["xl/_rels/workbook.xml.rels"]).matchAll(/<Relationship\b[^>]*>/g)].map(([tag]) => [
      attribute(tag, "Id"),
      (attribute(tag, "Target") ?? "").replace(/^.*\//, "").toLowerCase(),
    ]),
  );
  const sheets = [...textOf(parts["xl/workbook.xml"]).matchAll(/<sheet\b[^>]*>/g)].map(([tag]) => tag);
  return {
    isHidden: sheets.map((tag) => /hidden$/i.test(attribute(tag, "state") ?? "")),
    hiddenRows: sheets.map((tag) => hiddenRowsOf.get(targets.get(attribute(tag, "r:id")) ?? "") ?? 0),
  };
};
