/** The command line: exit status 0 holds, 1 does not hold, 2 usage error or bad input; JSON on demand; progress apart. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Sqlite from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { SupplyAnswer } from "../../../app/supply/answer.ts";
import { cliCommands } from "../../../main/cli/commands.ts";
import { run } from "./terminal.ts";

let folder: string;
const at = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-cli-"));
  await run("demo", "tarn", at("tarn.coldstock"));
  await run("demo", "beck", at("beck.coldstock"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("demo", () => {
  it("makes a ledger and names its plan cases", async () =>
    expect(await run("demo", "tarn", at("made.coldstock"))).toMatchObject({
      status: 0,
      err: "",
      out: expect.stringMatching(/Baseline, One more Packhorse, Return propellant cached/) as string,
    }));
});

describe("check", () => {
  it("is 1 where a sortie is short, and says which, by how much and from when it could go", async () => {
    const { status, out } = await run("check", at("tarn.coldstock"));
    expect(status).toBe(1);
    expect(out).toMatch(
      /Sortie 5 cannot load on \d{4}-\d\d-\d\d: short by .+ of hydrogen\. It stands down\. Earliest loading if only/,
    );
    expect(out).toMatch(/\nNo-go: \d+ of \d+ sorties cannot load as planned\. /);
  });

  it("is 0 where every sortie is supplied, by name or id of the case", async () => {
    expect(await run("check", at("tarn.coldstock"), "--case", "One more Packhorse")).toMatchObject({ status: 0 });
    expect(await run("check", at("tarn.coldstock"), "--case", "extra-packhorse")).toMatchObject({ status: 0 });
    expect((await run("check", at("beck.coldstock"))).status).toBe(0);
  });

  it("names a probability where it is asked for, with what it rests on", async () => {
    const plain = (text: string): string => text.replaceAll("\u202f", " ");
    const said =
      /\n[<>]?[\d.]+( ± [\d.]+)? %: all 5 sorties fly when planned \(4 096 runs, \d+ of \d+ inputs assumed\)\./;
    expect(plain((await run("check", at("tarn.coldstock"), "--risk")).out)).toMatch(said);
  });

  it("heads its columns with their units and aligns figures to the right", async () => {
    const { out } = await run("check", at("tarn.coldstock"));
    const table = out.split("\n\n")[1]!.split("\n");
    const head = table[0]!;
    expect(head).toMatch(/^Sortie .+Available kg .+Required kg .+Margin kg .+Margin % +Status$/);
    const end = head.indexOf("Required kg") + "Required kg".length;
    for (const row of table.slice(1)) expect(row.slice(0, end)).toMatch(/[0-9]$/);
  });

  it("prints JSON and nothing else with --json; progress goes to the error output", async () => {
    const { status, out, err } = await run("check", at("tarn.coldstock"), "--json");
    const answer = JSON.parse(out) as SupplyAnswer & { planCaseId: string };
    expect(status).toBe(1);
    expect(answer.holds).toBe(false);
    expect(answer.planCaseId).toBe("baseline");
    // No run is kept and none is asked for: nothing is known.
    expect(answer).toMatchObject({ risk: null });
    expect(answer.sorties.filter((sortie) => sortie.status === "short")).toHaveLength(1);
    expect(err).toMatch(/^Checking the supply …\n$/);
  });

  it("names the cases there are when it is asked for another", async () => {
    const { status, err } = await run("check", at("tarn.coldstock"), "--case", "nothing");
    expect(status).toBe(2);
    expect(err).toMatch(/Baseline, One more Packhorse/);
  });
});

describe("verify", () => {
  it("is 0 for a sound file", async () =>
    expect(await run("verify", at("tarn.coldstock"))).toMatchObject({
      status: 0,
      out: expect.stringMatching(/is sound/) as string,
    }));

  it("is 1, with the faults, for a file whose books were forced", async () => {
    const path = at("forced.coldstock");
    await run("demo", "beck", path);
    const db = new Sqlite(path);
    const triggers = db.prepare("SELECT name FROM sqlite_master WHERE type = 'trigger'").all() as { name: string }[];
    for (const { name } of triggers) db.exec(`DROP TRIGGER "${name}"`);
    db.exec("UPDATE posting SET grams = grams + 1 WHERE grams > 0");
    db.close();
    const { status, out } = await run("verify", path, "--json");
    expect(status).toBe(1);
    expect(JSON.parse(out)).toMatchObject({ isSound: false });
    expect((JSON.parse(out) as { faults: string[] }).faults.length).toBeGreaterThan(0);
  });
});

describe("export and import", () => {
  it("bring a ledger out and in again, to the byte", async () => {
    expect((await run("export", at("tarn.coldstock"), "--to", at("tarn.json"))).status).toBe(0);
    expect((await run("import", at("tarn.json"), at("again.coldstock"))).status).toBe(0);
    expect((await run("export", at("again.coldstock"), "--to", at("again.json"))).status).toBe(0);
    expect(readFileSync(at("again.json"), "utf8")).toBe(readFileSync(at("tarn.json"), "utf8"));
  });

  it("print the document without --to", async () => {
    const { out } = await run("export", at("beck.coldstock"));
    expect(JSON.parse(out)).toMatchObject({ format: "coldstock-ledger" });
  });

  it("refuse a document that is none, and leave no file", async () => {
    writeFileSync(at("bad.json"), "{");
    expect((await run("import", at("bad.json"), at("bad.coldstock"))).status).toBe(2);
    expect((await run("verify", at("bad.coldstock"))).status).toBe(2);
  });
});

describe("bad use", () => {
  it.each([
    [[]],
    [["fly"]],
    [["check"]],
    [["check", "a", "b"]],
    [["check", "/nowhere/none.coldstock"]],
    [["check", "--colour", "x"]],
    [["demo", "tarn", "/nowhere/at/all.coldstock"]],
    [["demo", "third", "x.coldstock"]],
    [["verify", "/dev/null"]],
  ])("%j is 2, with words on the error output", async (argv) => {
    const { status, out, err } = await run(...argv);
    expect(status).toBe(2);
    expect(out).toBe("");
    expect(err.length).toBeGreaterThan(10);
  });

  it("does not make a ledger over another file", async () => {
    writeFileSync(at("letter.txt"), "Dear depot");
    expect((await run("demo", "tarn", at("letter.txt"))).status).toBe(2);
    expect(readFileSync(at("letter.txt"), "utf8")).toBe("Dear depot");
  });

  it("gives the failure as JSON with --json", async () => {
    const { status, out } = await run("check", "/nowhere/none.coldstock", "--json");
    expect(status).toBe(2);
    expect(JSON.parse(out)).toMatchObject({ failure: { code: "storage" } });
  });
});

describe("help", () => {
  it("carries the caution", async () => {
    const { status, out } = await run("--help");
    expect(status).toBe(0);
    expect(out.replaceAll(/\s+/g, " ")).toMatch(/planning aid, not a flight-certified product/);
  });

  it.each(cliCommands.map(({ name }) => name))("is there for %s, with --json", async (name) => {
    const { status, out } = await run(name, "--help");
    expect(status).toBe(0);
    expect(out).toMatch(/--json/);
  });
});
