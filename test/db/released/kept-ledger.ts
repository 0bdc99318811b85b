/**
 * Makes a ledger of the present form, with plan, records, a withdrawn reading, an undone step, an issue of a report, a
 * column mapping, a risk input and a kept study in it.
 */
import { demoTarn } from "../../../app/demo/tarn.ts";
import { packRows } from "../../../app/study/study-table.ts";
import { recordReading } from "../../../app/records/record-reading.ts";
import { recordWithdrawal } from "../../../app/records/record-reverse.ts";
import { loadDocument } from "../../../db/ledger.ts";

/** `path`: there is no such file yet. */
export const makeKept = (path: string): void => {
  const store = loadDocument(path, demoTarn());
  let id = 0;
  const recorder = { author: "Ada", recordedAt: 0, newId: () => `kept-${(id += 1)}` };
  const at = (store.header().lastRecordAt ?? 0) + 86_400_000;
  const tank = store.entities().tank.find(({ ownerKind }) => ownerKind === "depot");
  if (tank === undefined) throw new Error("the demonstration has no tank");
  const reading = { id: "kept", tankId: tank.id, at, massKg: 500, sigmaKg: 50, takeIntoBooks: true, note: "kept" };
  store.commit(recordReading(store, reading, recorder));
  store.commit(recordWithdrawal(store, { readingId: "kept", reason: "to keep one" }, recorder));
  const [planCase] = store.entities().planCase;
  store.commit({
    label: "State a slip of sorties",
    reason: "",
    author: "Ada",
    recordedAt: at,
    changes: [
      {
        op: "put",
        kind: "riskInput",
        value: {
          id: "kept",
          planCaseId: planCase?.id ?? "",
          uncertainty: {
            quantity: "sortie slip",
            of: { kind: "every" },
            law: { kind: "exponential", noneShare: 0.4, meanDays: 12 },
          },
          source: "kept",
          note: "",
        },
      },
    ],
    entries: [],
    readings: [],
    withdrawnReadingIds: [],
    reversedEntryIds: [],
  });
  const [lander] = store.entities().craftClass.filter((row) => row.lander !== null);
  if (!lander?.lander) throw new Error("the demonstration describes no lander");
  const { engines, tanks } = lander.lander;
  const stage = { name: "Lower", dryKg: 1500, engines, thrusters: [], tanks, reservePercent: 1 };
  const twoStages = {
    ...lander,
    id: "kept",
    name: "Two stages",
    hardwareKg: 900,
    lander: { ...lander.lander, furtherStages: [stage] },
  };
  const burn = {
    kind: "burn",
    phase: "transfer",
    deltaV: { kind: "stated", mPerS: 100, allowanceMPerS: 0, basis: "kept" },
    marginPercent: 0,
    enginesLit: null,
    ignitions: 1,
    throttle: 1,
  } as const;
  store.commit({
    label: "Describe a lander of two stages",
    reason: "",
    author: "Ada",
    recordedAt: at,
    changes: [
      { op: "put", kind: "craftClass", value: twoStages },
      {
        op: "put",
        kind: "profile",
        value: {
          id: "kept",
          classId: "kept",
          name: "Two stages",
          steps: [
            { ...burn, name: "first", stage: "Lower" },
            { kind: "drop stage", name: "part", stage: "Lower", fate: "dropped" },
            { ...burn, name: "second" },
          ],
          reserve: { kind: "percent of load", percent: 1 },
          note: "kept",
          landing: null,
        },
      },
    ],
    entries: [],
    readings: [],
    withdrawnReadingIds: [],
    reversedEntryIds: [],
  });
  store.undo("Ada", 0);
  store.redo("Ada", 0);
  store.keepReportIssue({
    number: 1,
    issuedAt: at,
    author: "Ada",
    note: "kept",
    planCaseId: store.entities().planCase[0]?.id ?? "",
    caseName: store.entities().planCase[0]?.name ?? "",
    choices: {
      planCaseId: store.entities().planCase[0]?.id ?? "",
      compareId: null,
      fromAt: null,
      untilAt: null,
      massUnit: "t",
      paper: "A4",
      sectionIds: null,
    },
    inputHash: "0".repeat(64),
    content: "{}",
    lastStepId: store.newestStepId(),
  });
  store.keepColumnMapping(
    {
      kind: "readings",
      headings: ["Vessel", "When"],
      mapping: { columns: [{ heading: "When", to: "at", unit: null }], dates: null, decimals: null, separator: null },
    },
    at,
  );
  store.keepStudy({
    keptAt: at,
    author: "Ada",
    name: "kept",
    program: "1.0.0",
    planHash: "0".repeat(64),
    answer: {
      planCaseId: store.entities().planCase[0]?.id ?? "",
      planCase: store.entities().planCase[0]?.name ?? "",
      inputHash: "0".repeat(64),
      asked: {
        name: "kept",
        inputs: [{ quantity: "loss factor", values: { kind: "list", list: [1] } }],
        design: { kind: "grid" },
        ask: [{ kind: "verdict" }],
      },
      inputs: [{ words: "loss factor of every depot tank", unit: "", today: 1 }],
      columns: [{ name: "loss factor of every depot tank", unit: "" }],
      points: 1,
      from: 0,
      rows: packRows([[1]], 1),
      rankings: [],
    },
  });
  store.close();
};
