/**
 * What the library that writes workbooks leaves out: filters, headings repeated on each page, width fitted to the paper,
 * pages numbered, a title (ECMA-376 part 1: 18.3.1.2, 18.2.5, 18.3.1.65, 18.3.1.46; part 2: 11.1).
 */
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";

export interface SheetSetup {
  readonly name: string;
  /** Columns and rows of a table, its heading row among them; null: it is no table. */
  readonly table: { readonly columns: number; readonly rows: number } | null;
}

export interface WorkbookSetup {
  readonly title: string;
  readonly author: string;
  /** ms UTC; every file inside bears it, so that the same workbook is the same bytes. */
  readonly madeAt: number;
  readonly paper: "A4" | "letter";
  /** In the order of the workbook. */
  readonly sheets: readonly SheetSetup[];
}

const PAPER = { A4: 9, letter: 1 } as const;
const LETTERS = 26;

const escaped = (text: string): string =>
  text
    .replaceAll(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`)
    .replaceAll(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/g, ""); // eslint-disable-line no-control-regex -- XML has no place for them

/** 1 → "A", 27 → "AA". */
const columnName = (number: number): string =>
  number <= 0
    ? ""
    : columnName(Math.floor((number - 1) / LETTERS)) + String.fromCharCode(65 + ((number - 1) % LETTERS));

/** In a reference a name stands between apostrophes, its own doubled. */
const quoted = (name: string): string => escaped(`'${name.replaceAll("'", "''")}'`);

/** A page's foot takes & for a code; & & is the sign itself. */
const footOf = (title: string): string => escaped(`&L${title.replaceAll("&", "&&").slice(0, 200)}&R&P / &N`);

const replaceOnce = (text: string, pattern: RegExp, put: (found: string) => string): string => {
  if (!pattern.test(text)) throw new Error(`the workbook that was just written has no ${String(pattern)}`);
  return text.replace(pattern, put);
};

const setSheet = (xml: string, { table }: SheetSetup, { title, paper }: WorkbookSetup): string => {
  const fitted = replaceOnce(xml, /<worksheet[^>]*>/, (tag) => `${tag}<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>`);
  const ref = table === null ? null : `A1:${columnName(table.columns)}${table.rows}`;
  const filtered =
    ref === null ? fitted : replaceOnce(fitted, /<\/sheetData>/, (tag) => `${tag}<autoFilter ref="${ref}"/>`);
  const foot = `<headerFooter><oddFooter>${footOf(title)}</oddFooter></headerFooter>`;
  const setup = `<pageSetup paperSize="${PAPER[paper]}" orientation="${table === null ? "portrait" : "landscape"}" fitToWidth="1" fitToHeight="0"/>`;
  return replaceOnce(filtered, /<pageSetup[^>]*\/>/, () => setup + foot);
};

const definedNames = (sheets: readonly SheetSetup[]): string => {
  const names = sheets.flatMap(({ name, table }, index) => {
    if (table === null) return [];
    const all = `${quoted(name)}!$A$1:$${columnName(table.columns)}$${table.rows}`;
    return [
      `<definedName name="_xlnm._FilterDatabase" localSheetId="${index}" hidden="1">${all}</definedName>`,
      `<definedName name="_xlnm.Print_Titles" localSheetId="${index}">${quoted(name)}!$1:$1</definedName>`,
    ];
  });
  return names.length === 0 ? "" : `<definedNames>${names.toSorted().join("")}</definedNames>`;
};

const CORE_TYPE = "application/vnd.openxmlformats-package.core-properties+xml";
const CORE_RELATION = "http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties";

const coreOf = ({ title, author, madeAt }: WorkbookSetup): string => {
  const at = `${new Date(madeAt).toISOString().slice(0, 19)}Z`;
  return (
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>' +
    '<cp:coreProperties xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">' +
    `<dc:title>${escaped(title)}</dc:title><dc:creator>${escaped(author)}</dc:creator><dcterms:created xsi:type="dcterms:W3CDTF">${at}</dcterms:created>` +
    "</cp:coreProperties>"
  );
};

/** The workbook with all that; the sheets must be those that were written. Throws a plain error where they are not: a defect. */
export const setUpWorkbook = (workbook: Uint8Array, setup: WorkbookSetup): Buffer => {
  const files = unzipSync(workbook);
  const change = (path: string, by: (text: string) => string): void => {
    const file = files[path];
    if (file === undefined) throw new Error(`the workbook that was just written has no ${path}`);
    files[path] = strToU8(by(strFromU8(file)));
  };
  setup.sheets.forEach((sheet, index) => {
    change(`xl/worksheets/sheet${index + 1}.xml`, (xml) => setSheet(xml, sheet, setup));
  });
  change("xl/workbook.xml", (xml) =>
    replaceOnce(xml, /<definedNames\/>|<\/sheets>(?!<definedNames)/, (tag) =>
      tag === "</sheets>" ? tag + definedNames(setup.sheets) : definedNames(setup.sheets),
    ),
  );
  change("[Content_Types].xml", (xml) =>
    replaceOnce(
      xml,
      /<\/Types>/,
      (tag) => `<Override PartName="/docProps/core.xml" ContentType="${CORE_TYPE}"/>${tag}`,
    ),
  );
  change("_rels/.rels", (xml) =>
    replaceOnce(
      xml,
      /<\/Relationships>/,
      (tag) => `<Relationship Id="rIdCore" Type="${CORE_RELATION}" Target="docProps/core.xml"/>${tag}`,
    ),
  );
  files["docProps/core.xml"] = strToU8(coreOf(setup));
  return Buffer.from(zipSync(files, { level: 6 }));
};
