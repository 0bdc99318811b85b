/** What the exporter writes the importer takes back: CSV and workbook, whatever people called things. */
import { strictCsv } from "../../../../app/format/csv-form.ts";
import * as fc from "fast-check";
import { parse } from "csv-parse/sync";
import { label } from "../../../../app/ground/quantity.ts";
import { expect, it, test } from "vitest";
import { type RowKind, rowKinds } from "../../../../app/ledger/column-mapping.ts";
import { rowsTable, rowsToCsv } from "../../../../app/exchange/rows/write-rows.ts";
import type { EntitySet } from "../../../../app/entity/entities.ts";
import { rowsToWorkbook } from "../../../../main/exchange/rows-workbook.ts";
import { take, tarnEntities, tarnReadings } from "./tarn-rows.ts";
import { runs } from "../../../suite/runs.ts";

const csvOf = (kind: RowKind, entities = tarnEntities): string =>
  rowsToCsv(rowsTable(kind, entities, tarnReadings), strictCsv);
const bookOf = async (kind: RowKind, entities = tarnEntities): Promise<Buffer> =>
  await rowsToWorkbook(rowsTable(kind, entities, tarnReadings), kind);

it.each(rowKinds)("%s come back as CSV and as a workbook without a change", async (kind) => {
  const count = { flights: tarnEntities.flight, sorties: tarnEntities.sortie, readings: tarnReadings }[kind].length;
  for (const content of [csvOf(kind), await bookOf(kind)]) {
    const { preview, changes, readings } = await take(null, content);
    expect(preview).toMatchObject({ kind, questions: [], faultCount: 0, unchangedRows: count });
    expect([changes, readings]).toEqual([[], []]);
  }
});

it.each(["flights", "sorties"] as const)("%s that were taken out come back as they were", async (kind) => {
  const entityKind = kind === "flights" ? "flight" : "sortie";
  // What has left is not made by a table.
  const rows = tarnEntities[entityKind].filter(({ status }) => status === "planned" || status === "firm");
  const full = { ...tarnEntities, [entityKind]: rows } as EntitySet;
  const { preview, changes } = await take(kind, csvOf(kind, full), { entities: { ...full, [entityKind]: [] } });
  expect(preview).toMatchObject({ faultCount: 0, newRows: rows.length });
  const back = changes.map((change) => (change.op === "put" ? change.value : null));
  const plain = (all: readonly unknown[]) => new Map(all.map((row) => [(row as { key: string }).key, inOrder(row)]));
  // What a sortie needs is stated in a table, or is its class's: a profile is not a column.
  const isTold = (row: unknown) => (row as { demand?: { kind: string } }).demand?.kind !== "profile";
  const told = new Set(rows.filter(isTold).map(({ key }) => key));
  expect(back).toHaveLength(rows.length);
  expect(plain(back.filter((row) => told.has((row as { key: string }).key)))).toEqual(plain(rows.filter(isTold)));
});

test("when a flight was lost and a sortie stood down is in no column, and stays", async () => {
  const at = tarnEntities.flight[0]!.departAt;
  const entities: EntitySet = {
    ...tarnEntities,
    flight: tarnEntities.flight.map((row) => ({ ...row, status: "lost" as const, lostAt: at })),
    sortie: tarnEntities.sortie.map((row) => ({ ...row, status: "stood down" as const, stoodDownAt: at })),
  };
  for (const kind of ["flights", "sorties"] as const) {
    const { preview, changes } = await take(kind, csvOf(kind, entities), { entities });
    expect(preview).toMatchObject({ faultCount: 0, changedRows: 0, newRows: 0 });
    expect(changes).toEqual([]);
    const rows = kind === "flights" ? entities.flight : entities.sortie;
    const noted = ["key,name,note", ...rows.map(({ key, name }) => `${key},${name},noted`)].join("\n");
    const taken = await take(kind, noted, { entities });
    const kept = taken.changes.map((change) => (change.op === "put" ? change.value : {}));
    expect(kept).not.toEqual([]);
    for (const row of kept) expect(row).toMatchObject(kind === "flights" ? { lostAt: at } : { stoodDownAt: at });
  }
});

/** Loads in order of their propellant. */
const inOrder = (row: unknown): unknown => {
  const { loads, ...rest } = row as { loads?: readonly { propellantId: string }[] };
  return loads === undefined
    ? rest
    : { ...rest, loads: loads.toSorted((a, b) => (a.propellantId < b.propellantId ? -1 : 1)) };
};

test("readings come back as they were, id for id aside", async () => {
  const { readings } = await take("readings", csvOf("readings"), { known: [] });
  const plain = (rows: typeof tarnReadings) =>
    rows
      .map(({ tankId, at, massKg, sigmaKg, note }) => ({ tankId, at, massKg, sigmaKg, note }))
      .toSorted((a, b) => a.at - b.at || (a.tankId < b.tankId ? -1 : 1));
  expect(plain(readings)).toEqual(plain(tarnReadings.filter(({ isWithdrawn }) => !isWithdrawn)));
});

test("the CSV is that of RFC 4180, and no cell of it is a formula", () => {
  const [flight, ...others] = tarnEntities.flight;
  const named = {
    ...tarnEntities,
    flight: [{ ...flight!, name: '=HYPERLINK("x")', note: 'a "b", c\r\nd' }, ...others],
  };
  const csv = csvOf("flights", named);
  expect(csv.endsWith("\r\n")).toBe(true);
  const records = parse(csv);
  expect(new Set(records.map((record) => record.length)).size).toBe(1);
  const row = records.find(([name]) => name?.includes("HYPERLINK"));
  const note = records[0]?.indexOf("note") ?? -1;
  expect(row?.[0]).toBe(`'=HYPERLINK("x")`);
  expect(row?.[note]).toBe('a "b", c\r\nd');
});

const word = fc
  .string({ unit: "grapheme", minLength: 1, maxLength: 30 })
  // The workbook's writer loses a text that is a name of every object ("toString").
  .filter((text) => !(text in {}) && label.safeParse(text).success);
const awkward = fc.oneof(
  word,
  fc.constantFrom(
    "=1+1",
    "'=1",
    "''=x",
    "+49",
    "-",
    "@a",
    " =1",
    "' =1",
    "＝1+1",
    "'＠a",
    "\u3000+1",
    " led ",
    "a,b",
    'a"b',
    "a;b",
    "1,5",
    "2031-02-31",
    "TRUE",
    "#REF!",
  ),
);
const note = fc.oneof(
  awkward,
  fc.tuple(awkward, awkward).map((lines) => lines.join("\n")),
  fc.constant(""),
);

test("names, notes, instants and masses of any kind survive both ways", async () => {
  const [first, ...others] = tarnEntities.flight.filter(({ status }) => status === "planned");
  await fc.assert(
    fc.asyncProperty(
      awkward,
      note,
      fc.integer({ min: Date.UTC(2031, 0, 1), max: Date.UTC(2033, 0, 1) }),
      fc.double({ min: 0, max: 1900, noNaN: true, noDefaultInfinity: true }),
      fc.boolean(),
      async (name, words, second, loadedKg, isBook) => {
        const arriveAt = Math.floor(second / 1000) * 1000;
        const row = {
          ...first!,
          name,
          note: words,
          departAt: arriveAt - 86_400_000,
          arriveAt,
          loads: [{ propellantId: "hydrogen", loadedKg }],
        };
        const entities = { ...tarnEntities, flight: [row, ...others] };
        const { preview } = await take(
          "flights",
          isBook ? await bookOf("flights", entities) : csvOf("flights", entities),
          { entities },
        );
        expect(preview).toMatchObject({ questions: [], faults: [], changedRows: 0, newRows: 0, effects: [] });
      },
    ),
    { numRuns: runs(50) },
  );
});
