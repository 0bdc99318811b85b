/** The exported ledger: its published schema by an independent validator, the round trip to the byte, what is refused. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import { assert, constantFrom, integer, json, oneof, property, string } from "fast-check";
import { expect, test } from "vitest";
import { z } from "zod";
import { PlanningError } from "../../../app/ground/failure.ts";
import { demoBeck } from "../../../app/demo/beck.ts";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { documentText, ledgerDocument, parseDocument } from "../../../app/exchange/ledger-document.ts";
import { recordReading } from "../../../app/records/record-reading.ts";
import { recordWithdrawal } from "../../../app/records/record-reverse.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { day, handLedger, recorder, temporaryFolder } from "../records/hand-ledger.ts";
import { runs } from "../../suite/runs.ts";
import { describedSchema, undescribed } from "./described-schema.ts";

/** The published description of the format. */
const ledgerDocumentSchema = (): object => ({
  $id: "urn:coldstock:ledger-document:1",
  title: "Coldstock ledger, version 1",
  description:
    "Masses in kg (postings: whole grams), instants in integer milliseconds UTC since 1970. For each propellant, an entry's postings sum to 0.",
  ...z.toJSONSchema(ledgerDocument, { target: "draft-2020-12", io: "input" }),
});

const folder = temporaryFolder();
const SCHEMA = fileURLToPath(new URL("../../../app/exchange/ledger-document.schema.json", import.meta.url));
const validate = new Ajv2020({ strict: false }).compile(JSON.parse(readFileSync(SCHEMA, "utf8")) as object);

test("the published schema is what the program reads; when it changed, run this test with -u and look at the difference", async () => {
  const schema = describedSchema(ledgerDocumentSchema());
  await expect(`${JSON.stringify(schema, null, 2)}\n`).toMatchFileSnapshot(SCHEMA);
  expect(undescribed(schema)).toEqual([]);
});

test("the published schema uses only what regular expressions of every language know", () => {
  const patterns = new Set(
    [...readFileSync(SCHEMA, "utf8").matchAll(/"pattern": (".*"),?$/gm)].map(
      ([, text]) => JSON.parse(text ?? "") as string,
    ),
  );
  expect(patterns.size).toBeGreaterThan(3);
  // Plain classes and counts alone: no \\p, \\d, looking ahead or behind, named groups.
  expect([...patterns].filter((pattern) => /\\[pPdDwWbBk]|\(\?/.test(pattern))).toEqual([]);
});

test.each([
  ["Tarn", demoTarn],
  ["Beck", demoBeck],
])("the demonstration %s satisfies the schema and goes out, in and out again to the byte", (name, demo) => {
  const text = documentText(demo());
  validate(JSON.parse(text));
  expect(validate.errors).toBeNull();
  expect(documentText(parseDocument(text))).toBe(text);
  const store = loadDocument(join(folder, `${name}.coldstock`), parseDocument(text));
  expect(store.verify()).toMatchObject({ isSound: true, faults: [] });
  expect(documentText(store.document())).toBe(text);
  store.close();
});

test("a ledger with counter-entries, undone steps and things removed since comes back to the byte", () => {
  const store = handLedger(folder);
  const read = (id: string, at: number, massKg: number) =>
    store.commit(
      recordReading(
        store,
        { id, tankId: "mere-lh2", at, massKg, sigmaKg: 5, takeIntoBooks: true, note: "ä “b” \n 𝄞" },
        recorder,
      ),
    );
  read("a", day(10), 900);
  read("b", day(20), 800.25);
  store.commit(recordWithdrawal(store, { readingId: "a", reason: "" }, recorder));
  store.undo("Ada", day(300));
  store.redo("Ada", day(300));
  const text = documentText(store.document());
  const again = loadDocument(join(folder, "again.coldstock"), parseDocument(text));
  expect(documentText(again.document())).toBe(text);
  expect(again.statedLevels()).toEqual(store.statedLevels());
  again.close();
  // Undo everything: the entries stay in the journal, the tanks that they speak of are gone.
  while (store.header().undoLabel !== null) store.undo("Ada", day(300));
  const bare = documentText(store.document());
  const third = loadDocument(join(folder, "bare.coldstock"), parseDocument(bare));
  expect(documentText(third.document())).toBe(bare);
  expect(third.verify()).toMatchObject({ isSound: true });
  third.close();
  store.close();
});

/** The demonstration's text with the value at one place made another. */
const spoiled = (place: string, spoil: (value: unknown) => unknown): string => {
  const document = JSON.parse(documentText(demoTarn())) as Record<string, unknown>;
  const steps = place.split(".");
  const last = steps.pop() ?? "";
  const holder = steps.reduce((at, step) => at[step] as Record<string, unknown>, document);
  holder[last] = spoil(holder[last]);
  return JSON.stringify(document);
};
const to = (value: unknown) => () => value;
const plus = (more: number) => (value: unknown) => (value as number) + more;
const firstReading = demoTarn().entries.findIndex((entry) => entry.kind === "reading");
const firstTank = demoTarn().entities.tank.toSorted((a, b) => (a.id < b.id ? -1 : 1))[0]!;

const refusal = (text: string): PlanningError => {
  try {
    parseDocument(text);
  } catch (error) {
    if (error instanceof PlanningError) return error;
    throw error;
  }
  throw new Error("it was taken");
};

test.each<[string, string, (value: unknown) => unknown, RegExp, string]>([
  ["another format", "format", to("table"), /not an exported ledger/, "format"],
  ["a newer version", "version", to(2), /newer version/, "version"],
  ["a field too many", "secret", to(1), /no field/, "secret"],
  ["a negative mass", "entities.tank.0.heelKg", to(-1), /at least 0/, "entities.tank.0.heelKg"],
  ["an absurd mass", "entities.tank.0.maximumFillKg", to(1e30), /at most/, "entities.tank.0.maximumFillKg"],
  ["an id twice", "entities.tank.1", to(firstTank), /twice/, "entities.tank.1.id"],
  ["an unknown craft", "entities.flight.0.craftId", to("nobody"), /no craft nobody/, "entities.flight.0.craftId"],
  ["dates the wrong way", "entities.flight.0.arriveAt", to(0), /before it departs/, "entities.flight.0.arriveAt"],
  ["an unbalanced entry", "entries.0.postings.0.grams", plus(1), /does not balance/, "entries.0.postings"],
  ["half a gram", "entries.0.postings.0.grams", plus(0.5), /whole number/, "entries.0.postings.0.grams"],
  [
    "an entry on no tank",
    `entries.${firstReading}.postings.0.account.ownerId`,
    to("x"),
    /no tank x/,
    `entries.${firstReading}.postings.0.account.ownerId`,
  ],
  ["a reversal of nothing", "entries.1.reversesId", to("nothing"), /reversal/, "entries.1.reversesId"],
  ["a reading of no tank", "readings.0.tankId", to("x"), /no tank x/, "readings.0.tankId"],
  ["a name of ten million letters", "programme", to("x".repeat(10_000_000)), /80 characters/, "programme"],
])("%s is refused, with the field", (_what, place, spoil, message, field) => {
  const error = refusal(spoiled(place, spoil));
  expect(error.message).toMatch(message);
  expect(error.field).toBe(field);
});

test("whatever text comes, it is a document or refused in words", () => {
  const text = documentText(demoBeck());
  const cut = integer({ min: 0, max: text.length });
  const mutated = integer({ min: 0, max: text.length - 1 }).chain((at) =>
    oneof(string({ maxLength: 5 }), constantFrom("null", "-1", "1e999", "[]", "\\u0000", '"')).map(
      (put) => text.slice(0, at) + put + text.slice(at + 1),
    ),
  );
  assert(
    property(
      oneof(
        string(),
        json(),
        cut.map((at) => text.slice(0, at)),
        mutated,
      ),
      (candidate) => {
        try {
          expect(documentText(parseDocument(candidate))).toContain("coldstock-ledger");
        } catch (error) {
          if (!(error instanceof PlanningError)) throw error;
          expect(["invalid input", "refused"]).toContain(error.code);
        }
      },
    ),
    { numRuns: runs(100) },
  );
});
