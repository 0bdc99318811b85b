/** Workbooks that another library wrote: read with their real dates and figures; traps and broken ones refused in words. */
import { deflateRawSync } from "node:zlib";
import { utils, write, type WorkBook } from "@e965/xlsx";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it, test } from "vitest";
import { refusal, take } from "../../app/exchange/rows/tarn-rows.ts";

type Cells = readonly (readonly (string | number | boolean | Date | null)[])[];

const bookOf = (sheets: Readonly<Record<string, Cells>>, change?: (book: WorkBook) => void): Buffer => {
  const book = utils.book_new();
  for (const [name, rows] of Object.entries(sheets))
    utils.book_append_sheet(book, utils.aoa_to_sheet(rows as never, { cellDates: true, UTC: true }), name);
  change?.(book);
  return write(book, { type: "buffer", bookType: "xlsx", compression: true }) as Buffer;
};

const flights: Cells = [
  ["Flight", "Vehicle", "Launch site", "Depot", "Arrival (UTC)", "H2 [t]"],
  ["Packhorse 20", "Packhorse hull 2", "Ground", "Tarn", new Date(Date.UTC(2032, 2, 7, 6, 30)), 1.9],
  ["Packhorse 21", "Packhorse hull 3", "Ground", "Tarn", new Date(Date.UTC(2032, 3, 17)), 1.85],
];
const arrivals = (changes: Awaited<ReturnType<typeof take>>["changes"]) =>
  changes.map((change) => (change.op === "put" && change.kind === "flight" ? change.value.arriveAt : null));

describe("a workbook", () => {
  it("has real dates and figures", async () => {
    const { preview, changes } = await take(null, bookOf({ Plan: flights }), { fileName: "plan.xlsx" });
    expect(preview).toMatchObject({ kind: "flights", format: "workbook", sheet: "Plan", newRows: 2, questions: [] });
    expect(arrivals(changes)).toEqual([Date.UTC(2032, 2, 7, 6, 30), Date.UTC(2032, 3, 17)]);
    expect(JSON.stringify(changes)).toMatch(/"loadedKg":1900.*"loadedKg":1850/);
  });

  it("may count its days from 1904", async () => {
    const book = bookOf({ Plan: flights }, (each) => (each.Workbook = { WBProps: { date1904: true } }));
    expect(arrivals((await take("flights", book)).changes)).toEqual([
      Date.UTC(2032, 2, 7, 6, 30),
      Date.UTC(2032, 3, 17),
    ]);
  });

  it("may have its dates as bare numbers, or as words", async () => {
    // Serial 48281 is 2032-03-07 (25569 is 1970-01-01).
    const book = bookOf({
      Plan: [
        flights[0]!,
        [...flights[1]!.slice(0, 4), 48_280 + 1, 1.9],
        [...flights[2]!.slice(0, 4), "2032-04-17", 1.85],
      ],
    });
    expect(arrivals((await take("flights", book)).changes)).toEqual(
      [25_569, 0].map((day, index) => (index === 0 ? (48_281 - day) * 86_400_000 : Date.UTC(2032, 3, 17))),
    );
  });

  it("is read from the sheet whose headings fit, and from another when told", async () => {
    const notes: Cells = [["Read me"], ["This is the plan."]];
    const other: Cells = [flights[0]!, flights[2]!];
    const book = bookOf({ Notes: notes, Plan: flights, Later: other, Empty: [] });
    const { preview } = await take(null, book);
    expect(preview).toMatchObject({ sheet: "Plan", sheets: ["Notes", "Plan", "Later"], newRows: 2 });
    expect((await take(null, book, { sheet: "Later" })).preview).toMatchObject({ sheet: "Later", newRows: 1 });
    expect(await refusal(take(null, book, { sheet: "May" }))).toMatch(/no sheet “May”.*Notes, Plan, Later/);
  });

  it("tells its rows by their number on the sheet, blank ones among them", async () => {
    const { preview } = await take(
      "flights",
      bookOf({ Plan: [["Fleet plan"], [], ...flights.slice(0, 2), [], ["Bad", "Nobody"]] }),
    );
    expect(preview.readAs).toMatch(/headings in line 3/);
    expect(preview.faults[0]?.line).toBe(6);
  });

  it("keeps what a formula came to, and an error is not a figure", async () => {
    const book = bookOf({ Plan: flights }, (each) => {
      const sheet = each.Sheets["Plan"]!;
      sheet["F2"] = { t: "n", v: 1.9, f: "1+0.9" };
      sheet["F3"] = { t: "e", v: 0x17, w: "#REF!" };
    });
    const { preview, changes } = await take("flights", book);
    expect(changes).toHaveLength(1);
    expect(JSON.stringify(changes)).toContain('"loadedKg":1900');
    expect(preview.faults[0]).toMatchObject({ line: 3, column: "H2 [t]" });
  });
});

describe("what a workbook shows", () => {
  const readings: Cells = [
    ["Tank", "Read at", "Level %", "Sigma kg"],
    ["Tarn hydrogen", new Date(Date.UTC(2031, 5, 2)), 0.25, 51],
  ];

  it("in per cent is a per cent", async () => {
    const plain = bookOf({ Readings: [readings[0]!, [...readings[1]!.slice(0, 2), 25, 51]] });
    const shown = bookOf({ Readings: readings }, (each) => (each.Sheets["Readings"]!["C2"].z = "0.0%"));
    const massOf = async (book: Buffer) => (await take("readings", book)).readings[0]?.massKg;
    expect(await massOf(shown)).toBeGreaterThan(1000);
    expect(await massOf(shown)).toBe(await massOf(plain));
  });

  it("and not what a formula would come to, if the file does not say it: the cell is named", async () => {
    const parts = unzipSync(
      bookOf({ Plan: flights }, (each) => (each.Sheets["Plan"]!["F2"] = { t: "n", v: 1.9, f: "1+0.9" })),
    );
    const name = "xl/worksheets/sheet1.xml";
    parts[name] = strToU8(strFromU8(parts[name]!).replace(/(<f>[^<]*<\/f>)<v>[^<]*<\/v>/, "$1"));
    const { preview, changes } = await take("flights", Buffer.from(zipSync(parts)));
    expect(changes).toHaveLength(1);
    expect(preview.faults[0]).toMatchObject({ line: 2, column: "H2 [t]" });
    expect(preview.faults[0]?.reason).toMatch(/^Cell F2 holds a formula, and the file does not say what it came to/);
  });

  it("counts: a hidden sheet is not chosen before a visible one, and is told of when it is asked for", async () => {
    const book = bookOf({ Old: [...flights, flights[1]!], Plan: flights }, (each) => {
      each.Workbook = { Sheets: [{ Hidden: 1 }, { Hidden: 0 }] };
    });
    expect((await take("flights", book)).preview).toMatchObject({ sheet: "Plan", newRows: 2, remarks: [] });
    const asked = (await take("flights", book, { sheet: "Old" })).preview;
    expect(asked.remarks).toContain("The sheet “Old” is hidden in the workbook.");
  });

  it("hidden rows are read, and it is said", async () => {
    const book = bookOf({ Plan: flights }, (each) => (each.Sheets["Plan"]!["!rows"] = [{}, { hidden: true }]));
    const { preview } = await take("flights", book);
    expect(preview.newRows).toBe(2);
    expect(preview.remarks).toContain("1 row of the sheet is hidden in the workbook and read all the same.");
  });

  it("may have its dates and times in two columns: cells that show a time, parts of a day, or words", async () => {
    const book = bookOf(
      {
        Plan: [
          ["Flight", "Vehicle", "Launch site", "Depot", "Arrival date", "Arrival time"],
          ["Packhorse 20", "Packhorse hull 2", "Ground", "Tarn", new Date(Date.UTC(2032, 2, 7)), 0.25],
          ["Packhorse 21", "Packhorse hull 3", "Ground", "Tarn", new Date(Date.UTC(2032, 3, 17)), 0.75],
          ["Packhorse 22", "Packhorse hull 3", "Ground", "Tarn", new Date(Date.UTC(2032, 4, 17)), "18:05"],
        ],
      },
      ({ Sheets }) => void ((Sheets["Plan"]!["F2"] as { z: string }).z = "h:mm"),
    );
    const { preview, changes } = await take(null, book);
    expect(preview.questions).toEqual([]);
    expect(preview.columns.at(-1)).toMatchObject({ to: "arrives.time", samples: ["06:00", "0.75", "18:05"] });
    expect(arrivals(changes)).toEqual([
      Date.UTC(2032, 2, 7, 6),
      Date.UTC(2032, 3, 17, 18),
      Date.UTC(2032, 4, 17, 18, 5),
    ]);
  });

  it("may be in pounds", async () => {
    const book = bookOf({
      Plan: [
        [...flights[0]!.slice(0, 5), "H2 [lb]"],
        [...flights[1]!.slice(0, 5), 4000],
      ],
    });
    // 4,000 lb × 0.45359237 kg/lb
    expect(JSON.stringify((await take("flights", book)).changes)).toContain('"loadedKg":1814.36948');
  });
});

/** A ZIP of one stored or deflated part, with the sizes that its list is to tell. */
const zipOf = (name: string, packed: Buffer, told: { packed: number; unpacked: number }): Buffer => {
  const nameBytes = Buffer.from(name);
  const local = Buffer.alloc(30);
  local.writeUInt32LE(0x04034b50, 0);
  local.writeUInt16LE(8, 8);
  local.writeUInt32LE(told.packed, 18);
  local.writeUInt32LE(told.unpacked, 22);
  local.writeUInt16LE(nameBytes.length, 26);
  const central = Buffer.alloc(46);
  central.writeUInt32LE(0x02014b50, 0);
  central.writeUInt16LE(8, 10);
  central.writeUInt32LE(told.packed, 20);
  central.writeUInt32LE(told.unpacked, 24);
  central.writeUInt16LE(nameBytes.length, 28);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(1, 8);
  end.writeUInt16LE(1, 10);
  end.writeUInt32LE(46 + nameBytes.length, 12);
  end.writeUInt32LE(30 + nameBytes.length + packed.length, 16);
  return Buffer.concat([local, nameBytes, packed, central, nameBytes, end]);
};

describe("a trap", () => {
  const zeros = Buffer.alloc(300_000_000);
  const packed = deflateRawSync(zeros);

  it("is refused by what its list says, before anything is unpacked", async () => {
    expect(packed.length).toBeLessThan(400_000);
    const bomb = zipOf("xl/workbook.xml", packed, { packed: packed.length, unpacked: zeros.length });
    expect(await refusal(take("flights", bomb, { fileName: "a.xlsx" }))).toMatch(/unpacks to more than 200 MB/);
  });

  it("is stopped while it unpacks when its list lies", async () => {
    const bomb = zipOf("xl/workbook.xml", packed, { packed: packed.length, unpacked: 1000 });
    const before = process.memoryUsage().arrayBuffers;
    expect(await refusal(take("flights", bomb, { fileName: "a.xlsx" }))).toMatch(/damaged and cannot be unpacked/);
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(50_000_000);
  });

  it("is refused for one turned bit of a figure, which its sizes do not show", async () => {
    const name = "xl/worksheets/sheet1.xml";
    // Stored, not packed: the bit that turns is in the figure itself, 1.9 to 1.8.
    const book = Buffer.from(zipSync(unzipSync(bookOf({ Plan: flights })), { level: 0 }));
    expect(book.lastIndexOf(name)).toBeGreaterThan(0);
    const at = book.indexOf("<v>1.9</v>") + 5;
    book[at] = book[at]! ^ 1;
    expect(await refusal(take("flights", book))).toMatch(/damaged and cannot be unpacked.*sheet1\.xml does not agree/);
  });

  it("of one cell far out is refused, for all between would be filled", async () => {
    const parts = unzipSync(bookOf({ Plan: flights }));
    const name = "xl/worksheets/sheet1.xml";
    const far = '<row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>';
    parts[name] = strToU8(strFromU8(parts[name]!).replace("</sheetData>", far));
    expect(await refusal(take("flights", zipSync(parts)))).toMatch(/spans 1048576 rows and 16384 columns/);
  });

  it("of thousands of parts is refused", async () => {
    const parts = Object.fromEntries(
      Array.from({ length: 2001 }, (_unused, index) => [`xl/${index}.xml`, strToU8("x")]),
    );
    expect(await refusal(take("flights", zipSync(parts), { fileName: "a.xlsx" }))).toMatch(/can be a trap/);
  });
});

const compound = (...more: readonly Buffer[]): Buffer =>
  Buffer.concat([Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]), Buffer.alloc(512), ...more]);

test.each([
  ["no ZIP at all", Buffer.from("not a workbook"), /ends in \.xlsx but is no workbook/],
  ["an empty file", Buffer.alloc(0), /no workbook|empty/],
  ["the old form", compound(), /old form \(\.xls\)/],
  // [MS-OFFCRYPTO] 2.3.4.4: an encrypted workbook is a compound file with a stream "EncryptedPackage".
  ["one behind a password", compound(Buffer.from("EncryptedPackage", "utf16le")), /behind a password/],
  ["a ZIP of something else", Buffer.from(zipSync({ "a.txt": strToU8("x") })), /ZIP, but holds no workbook/],
  ["a workbook cut off", bookOf({ Plan: flights }).subarray(0, 900), /damaged and cannot be unpacked/],
  [
    "a workbook without sheets",
    Buffer.from(zipSync({ "xl/workbook.xml": strToU8("<workbook/>") })),
    /cannot be read|is empty/,
  ],
])("%s is refused in words", async (_name, bytes, words) => {
  const told = await refusal(take("flights", bytes, { fileName: "a.xlsx" }));
  expect(told).toMatch(/^PlanningError: /);
  expect(told).toMatch(words);
});
