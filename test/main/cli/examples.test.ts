/** Every example that `--help` prints works as printed, and what it prints with `--json` fits the published schema. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { afterAll, beforeAll, expect, it } from "vitest";
import { cliCommands } from "../../../main/cli/commands.ts";
import { client } from "../../suite/clients.ts";
import { run } from "./terminal.ts";

let folder = "";
const before = process.cwd();
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-examples-"));
  process.chdir(folder);
  await run("demo", "tarn", "tarn.coldstock");
});
afterAll(() => {
  process.chdir(before);
  rmSync(folder, { recursive: true });
});

const examples = cliCommands.flatMap(({ name, examples: own }) => own.map(({ line }) => [name, line] as const));
const words = (line: string): readonly string[] => line.split(/\s+/);
/** 1 is an answer too: a sortie of the demonstration is short; going back was only looked at; too few runs. */
const MAY_NOT_HOLD = new Set(["check", "restore", "risk", "schedule"]);

it("is an example for every command", () => {
  expect(cliCommands.filter(({ examples: own }) => own.length === 0).map(({ name }) => name)).toEqual([]);
});

/** Where the file itself, or a document of its own form, is what is printed. */
const printsFile = (line: string): boolean =>
  words(line).includes("-") || (/^(schema|export)\b/.test(line) && !line.includes("--to"));

it.each(examples)("%s: %s", async (name, line) => {
  const given = words(line.replace(" --json", ""));
  const { status, out, err } = await run(...given, ...(printsFile(line) ? [] : ["--json"]));
  expect({ status, err }).toMatchObject({ status: MAY_NOT_HOLD.has(name) ? (expect.any(Number) as number) : 0 });
  expect(status).toBeLessThan(2);
  expect(out.trim()).not.toBe("");
  if (printsFile(line)) return;
  const schema = JSON.parse((await run("schema", name)).out) as object;
  const validate = new Ajv2020({ strict: true, allowUnionTypes: true, formats: { "date-time": true } }).compile(schema);
  validate(JSON.parse(out));
  expect(validate.errors).toBeNull();
});

it("gives every instant as text beside its number", async () => {
  const { out } = await run("check", "tarn.coldstock", "--json");
  const { sorties } = JSON.parse(out) as { sorties: { plannedAt: number; plannedAtIso: string }[] };
  expect(sorties.length).toBeGreaterThan(1);
  for (const { plannedAt, plannedAtIso } of sorties) expect(Date.parse(plannedAtIso)).toBe(plannedAt);
  // The exported ledger is a document of its own form: nothing is added to it.
  await run("export", "tarn.coldstock", "--to", "plain.json");
  expect((await run("export", "tarn.coldstock", "--json")).out).not.toContain("AtIso");
});

it("says what it prints in words that help, with the schema's name", async () => {
  const { out } = await run("check", "--help");
  expect(out).toMatch(/Examples:\n {2}coldstock check tarn\.coldstock {2}/);
  expect(out).toMatch(/coldstock schema check/);
  expect(out).toMatch(/\n {2}verdict: object/);
  expect(out).toMatch(/\n {2}sorties: list of object/);
});

it("is read by a validator of another language, the ledger's schema too", client("python3-jsonschema"), async () => {
  for (const [of, line] of [
    ["check", "check tarn.coldstock --json"],
    ["losses", "losses tarn.coldstock --json"],
    ["ledger", "export tarn.coldstock"],
  ] as const) {
    writeFileSync("schema.json", (await run("schema", of)).out);
    writeFileSync("answer.json", (await run(...words(line))).out);
    const script = [
      "import json, jsonschema",
      "schema = json.load(open('schema.json'))",
      "jsonschema.Draft202012Validator.check_schema(schema)",
      "v = jsonschema.Draft202012Validator(schema)",
      "print([e.message for e in v.iter_errors(json.load(open('answer.json')))][:3])",
    ].join("\n");
    const { status, stdout, stderr } = spawnSync("/usr/bin/python3", ["-c", script], { encoding: "utf8" });
    expect({ status, stderr, stdout }).toEqual({ status: 0, stderr: "", stdout: "[]\n" });
  }
  expect(readFileSync("schema.json", "utf8")).not.toContain("\\\\p{");
});
