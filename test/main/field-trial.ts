/** What the program makes of the field that `adding-a-field.test.ts` adds: run in the copy that has it. */
import { demoTarn } from "../../app/demo/tarn.ts";
import type { Change, EntitySet } from "../../app/entity/entities.ts";
import { noForms } from "../../app/exchange/calendar/calendar-forms.ts";
import { documentText, parseDocument } from "../../app/exchange/ledger-document.ts";
import type { RowsTaking } from "../../app/exchange/rows/read-rows.ts";
import { rowsTable, rowsToCsv } from "../../app/exchange/rows/write-rows.ts";
import { strictCsv } from "../../app/format/csv-form.ts";
import { casePlan } from "../../app/ledger/case-plan.ts";
import { noMapping } from "../../app/ledger/column-mapping.ts";
import { comparePlans } from "../../app/ledger/compare-plans.ts";
import { loadDocument, openLedger } from "../../db/ledger.ts";
import { takeSource } from "../../main/exchange/take-source.ts";

const CASE = "baseline";

type Rows = EntitySet["flight"];

const ofCase = <R extends { readonly planCaseId: string | null }>(rows: readonly R[]): readonly R[] =>
  rows.filter(({ planCaseId }) => planCaseId === null || planCaseId === CASE);

const priorityOf = (row: Rows[number] | undefined): unknown =>
  (row as { dockPriority?: unknown } | undefined)?.dockPriority;

/** `oldPath`: a ledger of the form before; `newPath`: where one of the new form is made. */
export const tryField = async (oldPath: string, newPath: string) => {
  const store = loadDocument(newPath, demoTarn());
  const entities = (): EntitySet => {
    const all = store.entities();
    const { lossPeriod, campaign, flight, sortie } = all;
    return {
      ...all,
      lossPeriod: ofCase(lossPeriod),
      campaign: ofCase(campaign),
      flight: ofCase(flight),
      sortie: ofCase(sortie),
    };
  };
  const csv = (): string => rowsToCsv(rowsTable("flights", entities(), []), strictCsv);
  const take = async (text: string): Promise<RowsTaking> =>
    await takeSource(
      {
        source: { fileName: "rows.csv", base64: Buffer.from(text).toString("base64") },
        kind: "flights",
        sheet: null,
        calendar: noForms,
        mapping: noMapping,
        remembered: [],
        target: { entities: entities(), planCaseId: CASE, ledgerId: null, known: [], openings: [] },
      },
      () => undefined,
    );
  const commit = (changes: readonly Change[]): void => {
    const nothing = { entries: [], readings: [], withdrawnReadingIds: [], reversedEntryIds: [] };
    store.commit({ label: "Take rows", reason: "", author: "Ada", recordedAt: 0, changes, ...nothing });
  };
  const first = entities().flight.find(({ status }) => status === "planned");
  const now = (): unknown => priorityOf(entities().flight.find(({ key }) => key === first?.key));
  const rowWith = (value: string): string => `key,name,priority\n${first?.key},${first?.name},${value}\n`;
  const planned = () => {
    const plan = casePlan(store.entities(), CASE);
    if (plan === null) throw new Error("no such case");
    return plan;
  };
  const heading = csv().split("\n")[0] ?? "";
  const { faults } = (await take(rowWith("120"))).preview;
  const { preview, changes } = await take(rowWith("7"));
  const before = planned();
  commit(changes);
  const kept = now();
  const compared = comparePlans(before, planned()).map(({ words }) => words);
  const changedAgain = (await take(csv())).preview.changedRows;
  const read = parseDocument(documentText(store.document()));
  const inDocument = priorityOf(ofCase(read.entities.flight).find(({ key }) => key === first?.key));
  store.undo("Ada", 0);
  const undone = now();
  store.redo("Ada", 0);
  const redone = now();
  const ownFaults = store.verify().faults;
  store.close();
  const grown = openLedger(oldPath);
  const inGrown = [...new Set(grown.entities().flight.map(priorityOf))];
  for (let step = 0; step < 3; step += 1) grown.undo("Ada", 0);
  for (let step = 0; step < 3; step += 1) grown.redo("Ada", 0);
  const grownFaults = grown.verify().faults;
  grown.close();
  const { effects } = preview;
  return {
    heading,
    faults,
    effects,
    kept,
    compared,
    changedAgain,
    inDocument,
    undone,
    redone,
    ownFaults,
    inGrown,
    grownFaults,
  };
};
