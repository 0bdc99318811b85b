/** What a report prints of the books, and what the check of a ledger says to it: later, of another ledger, of changed books. */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Sqlite from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openLedger } from "../../../db/ledger.ts";
import { run } from "../cli/terminal.ts";
import { pdfText, plain } from "./read-pdf.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-books-"));
const at = (name: string): string => join(folder, name);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let printed = "";

const record = (path: string): void => {
  const store = openLedger(path);
  const { lastRecordAt } = store.header();
  const tank = store.entities().tank.find(({ ownerKind }) => ownerKind === "depot")!;
  store.commit({
    label: "Vent",
    reason: "",
    author: "tester",
    recordedAt: lastRecordAt!,
    changes: [],
    readings: [],
    withdrawnReadingIds: [],
    reversedEntryIds: [],
    entries: [
      {
        id: "later",
        at: lastRecordAt! + 1000,
        kind: "vent",
        subjectKey: null,
        reversesId: null,
        note: "",
        author: "tester",
        recordedAt: lastRecordAt!,
        postings: [
          { account: { kind: "tank", ownerId: tank.id }, propellantId: tank.propellantId, grams: -1000 },
          { account: { kind: "vented", ownerId: tank.ownerId }, propellantId: tank.propellantId, grams: 1000 },
        ],
      },
    ],
  });
  store.close();
};

beforeAll(async () => {
  await run("demo", "tarn", at("tarn.coldstock"));
  await run("demo", "beck", at("beck.coldstock"));
  await run("report", at("tarn.coldstock"), at("tarn.html"), "--sections", "verdict");
  await run("report", at("tarn.coldstock"), at("tarn.pdf"), "--sections", "verdict");
  printed = /SHA-256 ([0-9a-f]{64})/.exec(readFileSync(at("tarn.html"), "utf8"))?.[1] ?? "";
});

describe("the digest of the books", () => {
  it("stands whole in the report whatever is chosen of it, and short at the foot of each page", async () => {
    expect(printed).toMatch(/^[0-9a-f]{64}$/);
    const text = await pdfText(readFileSync(at("tarn.pdf")));
    expect(text).toContain(printed);
    const short = `${printed.slice(0, 4)} ${printed.slice(4, 8)} ${printed.slice(8, 12)}`;
    expect(text).toContain(plain(`· books ${short}`));
  });

  it("is what the check prints of the same ledger", async () => {
    const { status, out } = await run("verify", at("tarn.coldstock"));
    expect(status).toBe(0);
    expect(out).toContain(`Digest of the books: ${printed}`);
    expect((await run("verify", at("tarn.coldstock"), "--books", printed)).out).toMatch(/are these, with nothing/);
  });

  it("is found again by its first digits, as typed from paper, after more was recorded", async () => {
    record(at("tarn.coldstock"));
    const typed = `${printed.slice(0, 4)} ${printed.slice(4, 8)}`.toUpperCase();
    const { status, out } = await run("verify", at("tarn.coldstock"), "--books", typed);
    expect(status).toBe(0);
    expect(out).not.toContain(printed);
    expect(out).toMatch(/are the first \d+ entries of these; 1 entry came later\./);
  });

  it("is not found in another ledger, nor where a book was changed behind the program's back", async () => {
    const other = await run("verify", at("beck.coldstock"), "--books", printed);
    expect(other).toMatchObject({ status: 1, out: expect.stringMatching(/never had books/) as string });

    const db = new Sqlite(at("tarn.coldstock"));
    for (const name of db.prepare("SELECT name FROM sqlite_master WHERE type = 'trigger'").pluck().all())
      db.exec(`DROP TRIGGER "${String(name)}"`);
    db.exec("UPDATE entry SET note = note || '.' WHERE no = 1");
    db.close();
    const changed = await run("verify", at("tarn.coldstock"), "--books", printed);
    expect(changed.status).toBe(1);
    expect(changed.out).toMatch(/is not sound[\s\S]*digest does not agree/);
    expect(changed.out).not.toMatch(/books with the digest/);
  });

  it.each(["12", "nothing here", "12345678z"])("refuses %j as a digest", async (typed) => {
    expect((await run("verify", at("beck.coldstock"), "--books", typed)).status).toBe(2);
  });
});
