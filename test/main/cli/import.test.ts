/** `import` and `export --rows`: files of other offices in, rows out and in again, and what is said with which status. */
import { mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it, test } from "vitest";
import type { RowsPreview } from "../../../app/exchange/rows/rows-preview.ts";
import { run } from "./terminal.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-import-"));
const at = (name: string) => join(folder, name);
const ledger = at("tarn.coldstock");
const file = (name: string, content: string): string => {
  writeFileSync(at(name), content);
  return at(name);
};
const found = async (...argv: readonly string[]): Promise<RowsPreview> =>
  JSON.parse((await run("import", ...argv, "--json")).out) as RowsPreview;

beforeAll(async () => void (await run("demo", "tarn", ledger)));
afterAll(() => rmSync(folder, { recursive: true }));

const HEAD = "Flight;Vehicle;Launch site;Depot;Arrival (UTC);H2 [t];Weather";

test("a column of no meaning stops it with status 2; --map decides, and the next file is read at once", async () => {
  const may = file("may.csv", `${HEAD}\nPackhorse 20;Packhorse hull 2;Ground;Tarn;07.03.2032 06:30;1,9;fair\n`);
  const asked = await run("import", may, ledger);
  expect(asked.status).toBe(2);
  expect(asked.err).toMatch(/“Weather” means nothing here/);
  expect(asked.err).toMatch(/H2 \[t\] +Hydrogen loaded, t +guessed +1,9/);
  const told = await run("import", may, ledger, "--map", "Weather=");
  expect(told).toMatchObject({
    status: 0,
    out: expect.stringMatching(/1 rows: 1 new, 0 changed.*; imported/) as string,
  });
  const june = file("june.csv", `${HEAD}\nPackhorse 20;Packhorse hull 2;Ground;Tarn;09.03.2032 06:30;1,9;rain\n`);
  const next = await found(june, ledger);
  expect(next).toMatchObject({ changedRows: 1, isTaken: true });
  expect(next.columns.every(({ decision }) => decision === "remembered")).toBe(true);
  expect(await found(june, ledger)).toMatchObject({ unchangedRows: 1, changedRows: 0 });
});

test("a preview changes nothing, and a bad row ends with status 1", async () => {
  const bad = file("bad.csv", "name,arrives\nPackhorse 20,2031-02-31\n");
  const { status, out } = await run("import", bad, ledger, "--preview");
  expect(status).toBe(1);
  expect(out).toMatch(/line 2, arrives: “2031-02-31” is not a date/);
  const good = file("good.csv", "name,arrives\nPackhorse 20,2032-05-01\n");
  expect(await found(good, ledger, "--preview")).toMatchObject({ changedRows: 1, isTaken: false });
  expect(await found(good, ledger, "--preview")).toMatchObject({ changedRows: 1 });
});

test("--map, --dates, --decimals and --separator say what a file does not", async () => {
  const odd = file("odd.csv", "Who|When|LH2\nPackhorse 20|3/4/2032|1,234\n");
  const told = [
    "--map",
    "Who=Name",
    "--map",
    "When=arrives",
    "--map",
    "LH2=hydrogen t",
    "--dates",
    "month first",
    "--decimals",
    "comma",
  ];
  const preview = await found(odd, ledger, "--rows", "flights", "--separator", "bar", "--preview", ...told);
  expect(preview.effects[0]?.fields).toEqual(
    expect.arrayContaining([
      expect.objectContaining({ field: "arrives", after: "2032-03-04" }),
      expect.objectContaining({ field: "hydrogen loaded", after: "1.23\u202ft" }),
    ]) as unknown,
  );
});

it.each([
  [["--map", "Nobody=name"], /has no column “Nobody”. It has: name, arrives/],
  [["--map", "name=nonsense"], /no column “nonsense” here. There are: Name, Tanker/],
  [["--map", "name"], /no “=”/],
  [["--map", "arrives=arrives kg"], /not stated in kg/],
  [["--rows", "lorries"], /--rows is one of/],
  [["--dates", "backwards"], /--dates is one of/],
  [["--case", "nothing"], /Baseline/],
] as const)("%j is bad use", async (options, words) => {
  const good = file("use.csv", "name,arrives\nPackhorse 20,2032-05-01\n");
  const { status, err } = await run("import", good, ledger, ...options);
  expect(status).toBe(2);
  expect(err).toMatch(words);
});

test("a date and a time in two columns are found, or said with --map; pounds, too", async () => {
  const split = file("split.csv", "Name,Day,Clock,Propellant\nPackhorse 20,2032-03-04,14:05,4000\n");
  const asked = await run("import", split, ledger, "--rows", "flights");
  expect(asked).toMatchObject({ status: 2, err: expect.stringMatching(/“Clock” means nothing here/) as string });
  const told = ["Day=arrives", "Clock=arrives time", "Propellant=hydrogen lb"].flatMap((each) => ["--map", each]);
  const preview = await found(split, ledger, "--rows", "flights", "--preview", ...told);
  // 4000 lb × 0.45359237 kg/lb
  expect(preview.effects[0]?.fields).toEqual(
    expect.arrayContaining([
      expect.objectContaining({ field: "arrives", after: "2032-03-04 14:05 UTC" }),
      expect.objectContaining({ field: "hydrogen loaded", after: "1.81\u202ft" }),
    ]) as unknown,
  );
});

test("a calendar's floating times and whole days are asked about, unless an option says", async () => {
  const events = file(
    "office.ics",
    [
      "BEGIN:VCALENDAR",
      "VERSION:2.0",
      "PRODID:-//Other office//EN",
      ...["DTSTART:20320701T120000", "DTSTART;VALUE=DATE:20320801"].flatMap((start, index) => [
        "BEGIN:VEVENT",
        `UID:launch-${index}@other`,
        `SUMMARY:Packhorse hull 2 to Tarn ${index}`,
        start,
        "END:VEVENT",
      ]),
      "END:VCALENDAR",
      "",
    ].join("\r\n"),
  );
  const asked = await run("import", events, ledger);
  expect(asked.status).toBe(2);
  expect(asked.err).toMatch(/in which zone are they\?\n.*at which time of day[^]*--zone .* --whole-days/);
  expect((await run("import", events, ledger, "--zone", "Nowhere", "--whole-days", "06:00")).status).toBe(2);
  expect((await run("import", events, ledger, "--zone", "UTC", "--whole-days", "noon")).status).toBe(2);
  const told = await found(events, ledger, "--zone", "Europe/Paris", "--whole-days", "06:00", "--preview");
  expect(told.effects.map(({ fields }) => fields.find(({ field }) => field === "departs")?.after)).toEqual([
    "2032-07-01 10:00 UTC",
    "2032-08-01 06:00 UTC",
  ]);
});

test("a file of a gigabyte is refused by its size", async () => {
  const huge = file("huge.csv", "name,arrives\n");
  truncateSync(huge, 1_000_000_000);
  const { status, err } = await run("import", huge, ledger);
  expect(status).toBe(2);
  expect(err).toMatch(/huge\.csv has 1000 MB; 48 MB at most/);
});

it.each([
  ["flights", "csv"],
  ["flights", "xlsx"],
  ["sorties", "xlsx"],
  ["readings", "csv"],
  ["readings", "xlsx"],
])("%s written as %s come in again without a change", async (kind, ending) => {
  const path = at(`${kind}.${ending}`);
  expect(await run("export", ledger, "--rows", kind, "--to", path)).toMatchObject({ status: 0 });
  expect(readFileSync(path).length).toBeGreaterThan(100);
  const preview = await found(path, ledger);
  expect(preview).toMatchObject({ kind, newRows: 0, changedRows: 0, faultCount: 0, questions: [] });
  expect(preview.unchangedRows).toBeGreaterThan(0);
});

test("the calendar of the report comes in again without a change", async () => {
  const path = at("plan.ics");
  expect((await run("report", ledger, path)).status).toBe(0);
  expect(await found(path, ledger)).toMatchObject({ format: "calendar", newRows: 0, changedRows: 0, faultCount: 0 });
});
