/**
 * The contract under nonsense, over a real ledger file: whatever comes, the answer is a reply; a refusal leaves the
 * ledger as it was to the letter; and at the end the file is sound.
 */
import {
  anything,
  assert,
  asyncProperty,
  boolean,
  constantFrom,
  double,
  integer,
  nat,
  oneof,
  string,
  tuple,
} from "fast-check";
import { afterAll, beforeAll, expect, it } from "vitest";
import { contract, type OperationName } from "../../../app/contract/contract.ts";
import { entityKinds } from "../../../app/entity/entities.ts";
import { startTestService, type TestService } from "./test-service.ts";
import { runs } from "../../suite/runs.ts";

const RUNS = runs(600);

let test: TestService;
/** Well-formed inputs to start from, made of the demonstration's own rows. */
let good: readonly (readonly [OperationName, unknown])[];

beforeAll(async () => {
  test = startTestService();
  await test.service.call("ledger.demo", { path: test.path("tarn"), which: "tarn" });
  const reply = await test.service.call("ledger.export", {});
  if (!reply.ok) throw new Error(reply.failure.message);
  const { entities, entries, readings } = reply.value;
  const planCaseId = entities.planCase[0]!.id;
  const flights = entities.flight.filter((row) => row.planCaseId === planCaseId);
  const sortie = entities.sortie.find((row) => row.planCaseId === planCaseId && row.status === "planned")!;
  const departed = flights.find((row) => row.status === "departed") ?? flights[0]!;
  const planned = flights.find((row) => row.status === "planned")!;
  const tankId = entities.tank[0]!.id;
  const propellantId = entities.propellant[0]!.id;
  const at = 1938038400000;
  const masses = [{ propellantId, massKg: 1 }];
  const edits = entityKinds.flatMap((kind) => {
    const value = entities[kind][0];
    return value === undefined
      ? []
      : [
          ["plan.edit", { label: "Edit", reason: "", changes: [{ op: "put", kind, value }] }] as const,
          ["plan.edit", { label: "Remove", reason: "", changes: [{ op: "remove", kind, id: value.id }] }] as const,
        ];
  });
  const mapping = {
    columns: [{ heading: "Name", to: "name", unit: null }],
    dates: null,
    decimals: null,
    separator: null,
  };
  const source = { fileName: "rows.csv", text: "Name,Arrives\nPackhorse 7,2031-09-01" };
  const rows = { kind: "flights", planCaseId, source, sheet: null, mapping };
  good = [
    ...edits,
    ["ledger.asOf", { asOfAt: at }],
    ["plan.view", { planCaseId }],
    ["plan.undo", {}],
    ["plan.redo", {}],
    ["plan.history", { offset: 0, limit: 10 }],
    ["case.copy", { fromId: planCaseId, newId: "another", name: "Another" }],
    ["case.remove", { planCaseId }],
    ["supply.check", { planCaseId }],
    ["record.reading", { id: "r-new", tankId, at, massKg: 100, sigmaKg: 1, takeIntoBooks: true, note: "" }],
    ["record.withdrawReading", { readingId: readings[0]!.id, reason: "" }],
    [
      "record.correct",
      {
        wrong: { kind: "reading", id: readings[0]!.id },
        reason: "misread",
        record: "record.reading",
        input: { id: "r-right", tankId, at, massKg: 100, sigmaKg: 1, takeIntoBooks: true, note: "" },
      },
    ],
    ["record.departure", { flightId: planned.id, at, loads: [{ propellantId, loadedKg: 10 }], note: "" }],
    [
      "record.arrival",
      {
        flightId: departed.id,
        at,
        taken: [{ tankId, massKg: 1 }],
        handoverLoss: masses,
        leftAboard: masses,
        vented: masses,
        note: "",
      },
    ],
    ["record.loss", { flightId: departed.id, at, note: "" }],
    ["record.loading", { sortieId: sortie.id, at, drawn: [{ tankId, massKg: 1 }], handoverLoss: masses, note: "" }],
    ["record.return", { sortieId: sortie.id, at, aboard: masses, note: "" }],
    ["record.closing", { depotId: entities.depot[0]!.id, at, measured: [{ tankId, massKg: 1, sigmaKg: 1 }], note: "" }],
    [
      "record.entry",
      (({ author: _a, recordedAt: _r, reversesId: _v, ...entry }) => ({ ...entry, id: "e-new" }))(entries[0]!),
    ],
    ["record.reverse", { entryId: entries[0]!.id, reason: "" }],
    [
      "report.issue",
      {
        choices: {
          planCaseId,
          compareId: null,
          fromAt: null,
          untilAt: null,
          massUnit: "t",
          paper: "A4",
          sectionIds: ["verdict", "supply"],
        },
        note: "fuzz",
      },
    ],
    ["report.show", { of: { kind: "issue", number: 1 } }],
    ["rows.import", { ...rows, goodRowsOnly: false }],
    ["rows.preview", rows],
    ["rows.export", { kind: "flights", planCaseId, format: "csv" }],
    [
      "journal.page",
      {
        fromAt: null,
        untilAt: null,
        accountKind: null,
        ownerId: null,
        propellantId: null,
        subjectKey: null,
        text: "",
        offset: 0,
        limit: 10,
      },
    ],
  ];
});
afterAll(() => test.end());

/** What hides in hand-made requests. */
const nasty = oneof(
  constantFrom<unknown>(
    undefined,
    null,
    NaN,
    Infinity,
    -Infinity,
    -0,
    -1,
    1e300,
    1e-300,
    2 ** 53,
    0.1,
    "",
    "__proto__",
    "constructor",
    "no-such-id",
    "';DROP TABLE flight;--",
    "\u0000",
    "\ud800",
    "x".repeat(5000),
    [],
    {},
    [[]],
    true,
  ),
  anything({ maxDepth: 2 }),
  double(),
  integer(),
  string(),
);

const placesOf = (value: unknown, path: readonly string[] = []): readonly (readonly string[])[] =>
  typeof value === "object" && value !== null
    ? [path, ...Object.entries(value).flatMap(([key, part]) => placesOf(part, [...path, key]))]
    : [path];

const withAt = (value: unknown, path: readonly string[], part: unknown): unknown => {
  const [key, ...rest] = path;
  if (key === undefined) return part;
  const copy: unknown = Array.isArray(value) ? [...(value as unknown[])] : { ...(value as object) };
  const fields = copy as Record<string, unknown>;
  fields[key] = withAt(fields[key], rest, part);
  return copy;
};

const state = async (): Promise<string> => {
  const reply = await test.service.call("ledger.export", {});
  if (!reply.ok) throw new Error(reply.failure.message);
  return JSON.stringify(reply.value);
};

it("answers everything, changes nothing by what it refuses, and keeps the file sound", async () => {
  const spoil = tuple(nat(), nat(), nasty, boolean());
  await assert(
    asyncProperty(spoil, async ([which, where, part, isWhole]) => {
      const [name, input] = good[which % good.length]!;
      const places = placesOf(input);
      const spoiled = isWhole && where % 2 === 0 ? input : withAt(input, places[where % places.length]!, part);
      const before = await state();
      const reply = await test.service.dispatch(name, spoiled);
      expect(Object.keys(reply).sort()).toEqual(reply.ok ? ["ok", "value"] : ["failure", "ok"]);
      structuredClone(reply);
      if (!reply.ok) {
        expect(reply.failure.message.length).toBeGreaterThan(5);
        expect(reply.failure.code, `${name}: ${test.defects.at(-1)}`).not.toBe("defect");
        expect(await state()).toBe(before);
      }
      if (contract[name].kind === "query") expect(await state()).toBe(before);
    }),
    { numRuns: RUNS },
  );
  expect(await test.service.call("ledger.verify", {})).toMatchObject({
    ok: true,
    value: { isSound: true, faults: [] },
  });
}, 240_000);

it("answers anything at all under any name", async () => {
  await assert(
    asyncProperty(
      oneof(constantFrom(...Object.keys(contract)), string()),
      anything(),
      anything(),
      async (name, input, jobId) => {
        // Those that name a path would write files of random names.
        if (name.startsWith("ledger.")) return;
        const reply = await test.service.dispatch(name, input, jobId);
        structuredClone(reply);
      },
    ),
    { numRuns: runs(800) },
  );
  expect(test.defects).toEqual([]);
}, 120_000);
