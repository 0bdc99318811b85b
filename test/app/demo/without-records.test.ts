/** A copy of a demonstration without its records: the whole plan lies ahead, and nothing recorded is left. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { demoBeck } from "../../../app/demo/beck.ts";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { withoutRecords } from "../../../app/demo/without-records.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import { glance } from "../../../app/supply/glance.ts";
import { loadDocument } from "../../../db/ledger.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-copy-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test.each([
  ["tarn", demoTarn, 6],
  ["beck", demoBeck, 3],
] as const)(
  "%s: the file is sound, all sorties lie ahead, and only opening levels are in the books",
  (name, make, sorties) => {
    const document = withoutRecords(make(), "Our programme");
    const store = loadDocument(join(folder, `${name}.coldstock`), document);
    expect(store.verify()).toMatchObject({ isSound: true, faults: [] });
    expect(store.readings()).toEqual([]);
    const { plan } = planView(store, document.entities.planCase[0]?.id ?? "");
    const seen = glance(plan, forecast(plan));
    expect(seen.sorties).toHaveLength(sorties);
    expect(plan.asOfAt).toBe(Math.min(...document.entries.map(({ at }) => at)));
    expect(seen.findings.filter(({ kind }) => kind === "overdue")).toEqual([]);
    expect(document).toMatchObject({ programme: "Our programme", isDemonstration: true });
    store.close();
  },
);
