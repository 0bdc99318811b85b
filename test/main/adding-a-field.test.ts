/**
 * What DEVELOPERS.md says of a field of a flight, done to the letter in a copy of the program: after its five places the
 * ledger, rows that come in and go out, documents, undo and the comparison of plan cases have the field.
 */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { DOCUMENT_FORM } from "../../app/exchange/document-form.ts";
import type { tryField } from "./field-trial.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
// Within the project, where packages are found.
const copy = join(root, "out", `a-field-${process.pid}`);
const form = DOCUMENT_FORM + 10;
const step = `db/migrations/${String(form).padStart(4, "0")}-dock-priority.sql`;

interface Place {
  readonly file: string;
  /** Stands there once; null: the file is new. */
  readonly after: string | null;
  readonly text: string;
}

/** The five places. */
const places: readonly Place[] = [
  {
    file: "app/entity/flight.ts",
    after: "  lostAt: instant.nullable().default(null),\n",
    text: "  /** Which of two that wait docks first; the smaller goes before. */\n  dockPriority: z.int().min(0).max(99).nullable().default(null),\n",
  },
  {
    file: "app/fields/flight-fields.ts",
    after: "  lostAt: null,\n",
    text: `  dockPriority: {
    label: "Dock priority",
    words: "dock priority",
    value: { kind: "number", unit: "", min: 0, max: 99, isWhole: true, decimals: 0, emptyWords: "none" },
    held: "over",
    form: "when",
    sheet: { id: "dock-priority" },
    rows: { id: "dock-priority", synonyms: ["priority"] },
    compare: "by value",
  },
`,
  },
  { file: "db/columns.ts", after: '    lostAt: "integer",\n', text: '    dockPriority: "integer",\n' },
  { file: step, after: null, text: "ALTER TABLE flight ADD COLUMN dock_priority INTEGER;\n" },
  { file: "app/exchange/document-form.ts", after: `DOCUMENT_FORM = ${DOCUMENT_FORM}`, text: " + 10" },
];

let tried: Awaited<ReturnType<typeof tryField>>;

beforeAll(() => {
  mkdirSync(copy, { recursive: true });
  for (const part of ["app", "db", "main", "package.json"])
    cpSync(join(root, part), join(copy, part), { recursive: true });
  for (const { file, after, text } of places) {
    const path = join(copy, file);
    const parts = after === null ? [] : readFileSync(path, "utf8").split(after);
    if (after !== null && parts.length !== 2) throw new Error(`${file}: has no one place for it`);
    writeFileSync(path, after === null ? text : parts.join(after + text));
  }
  const old = join(copy, "old.coldstock");
  cpSync(join(root, `test/db/released/form-${DOCUMENT_FORM}.coldstock`), old);
  cpSync(join(root, "test/main/field-trial.ts"), join(copy, "test/main/field-trial.ts"));
  const script = join(copy, "run.ts");
  const asked = JSON.stringify([old, join(copy, "new.coldstock")]);
  writeFileSync(
    script,
    `import { tryField } from "./test/main/field-trial.ts";\nconsole.log(JSON.stringify(await tryField(...${asked})));\n`,
  );
  const { stdout, stderr, status } = spawnSync(process.execPath, [script], { encoding: "utf8" });
  if (status !== 0) throw new Error(stderr);
  tried = JSON.parse(stdout) as typeof tried;
});
afterAll(() => {
  rmSync(copy, { recursive: true, force: true });
});

test("DEVELOPERS.md names each of the five places", () => {
  const guide = readFileSync(join(root, "DEVELOPERS.md"), "utf8");
  const [, recipe = ""] = guide.split("**A field of a flight or a sortie**");
  const [own = ""] = recipe.split("\n\n**");
  expect(places).toHaveLength(5);
  for (const { file } of places) expect(own).toContain(file === step ? "db/migrations/00N0-what.sql" : file);
});

test("rows go out and come in with it, its range and the preview say it by its name", () => {
  const { heading, faults, effects, changedAgain } = tried;
  expect(heading).toContain("dock priority");
  expect(faults).toMatchObject([{ line: 2, column: "priority" }]);
  const fields = [{ field: "dock priority", before: "none", after: "7" }];
  expect(effects).toMatchObject([{ what: "changed", fields }]);
  expect(changedAgain).toBe(0);
});

test("the ledger and its document keep it, undo takes it back, and the comparison of plan cases says it", () => {
  expect(tried).toMatchObject({ kept: 7, undone: null, redone: 7, inDocument: 7, ownFaults: [] });
  expect(tried.compared).toEqual(["dock priority 7 instead of none"]);
});

test("a ledger of the form before has none, and its steps can still be undone", () => {
  expect(tried).toMatchObject({ inGrown: [null], grownFaults: [] });
});
