/** `import --book` of readings whose tanks' books are not open: what it refuses, what it offers, and what that writes. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { LedgerDocument } from "../../../app/ledger/ledger-view.ts";
import { run } from "./terminal.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-open-from-"));
const at = (name: string) => join(folder, name);
const ledger = at("two.coldstock");
const readings = at("readings.csv");

const documentOf = async (): Promise<LedgerDocument> => {
  const path = at("now.json");
  rmSync(path, { force: true });
  await run("export", ledger, "--to", path);
  return JSON.parse(readFileSync(path, "utf8")) as LedgerDocument;
};

/** The demonstration with one more tank, of which nothing is recorded. */
beforeAll(async () => {
  const [demo, path] = [at("tarn.coldstock"), at("tarn.json")];
  await run("demo", "tarn", demo);
  await run("export", demo, "--to", path);
  const document = JSON.parse(readFileSync(path, "utf8")) as LedgerDocument;
  const tank = document.entities.tank.find(({ ownerKind }) => ownerKind === "depot")!;
  const more = { ...tank, id: "annex", name: "Annex" };
  const withMore = { ...document, entities: { ...document.entities, tank: [...document.entities.tank, more] } };
  writeFileSync(path, JSON.stringify(withMore));
  await run("import", path, ledger);
  const day = (n: number): string => new Date(Date.UTC(2031, 2, n)).toISOString().slice(0, 16);
  writeFileSync(readings, `tank,read at,level kg,sigma kg\nAnnex,${day(9)},480,5\nAnnex,${day(2)},500,5\n`);
});
afterAll(() => rmSync(folder, { recursive: true }));

test("what is not open is refused by name, and the option that opens it is named", async () => {
  const { status, err } = await run("import", readings, ledger, "--book");
  expect(status).toBe(2);
  expect(err).toMatch(/The books of Annex are not open/);
  expect(err).toMatch(/--open-from "[^"]+"/);
  expect((await documentOf()).readings.filter(({ tankId }) => tankId === "annex")).toEqual([]);
});

test.each([
  [["--open-from", "Ground"], /goes with --book/],
  [["--book", "--open-from", "Nowhere"], /no source "Nowhere"\. There are: /],
] as const)("%j is bad use", async (options, words) => {
  const { status, err } = await run("import", readings, ledger, ...options);
  expect(status).toBe(2);
  expect(err).toMatch(words);
});

test("a preview says what would be written and writes nothing; the import writes that, and says so", async () => {
  const before = await documentOf();
  const source = before.entities.source[0]!.name;
  const options = ["--book", "--open-from", source] as const;
  const words = new RegExp(
    `The books of Annex open with 500\\skg on 2031-03-02 00:00 UTC, as come from ${source}\\. 2 readings booked: Annex on 2031-03-02 00:00 UTC \\(as the loss model says\\) and Annex on 2031-03-09`,
  );
  const seen = await run("import", readings, ledger, "--preview", ...options);
  expect(seen.status).toBe(0);
  expect(seen.out).toMatch(/nothing was imported\.\nOnce imported: The books/);
  expect(seen.out).toMatch(words);
  expect((await documentOf()).entries).toEqual(before.entries);
  const done = await run("import", readings, ledger, ...options);
  expect(done.status).toBe(0);
  expect(done.out).toMatch(words);
  const { entries } = await documentOf();
  const opened = entries.filter(({ id }) => !before.entries.some((entry) => entry.id === id));
  expect(opened.map(({ kind }) => kind)).toEqual(["opening", "reading", "reading"]);
  expect(opened[0]!.postings.map(({ grams }) => grams)).toEqual([500_000, -500_000]);
  expect((await run("verify", ledger)).status).toBe(0);
  // Open now: booked without the option.
  writeFileSync(readings, "tank,read at,level kg,sigma kg\nAnnex,2031-03-12,478,5\n");
  expect((await run("import", readings, ledger, "--book")).status).toBe(0);
});
