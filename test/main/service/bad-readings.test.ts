/** Readings that cannot be, brought in or recorded on a real ledger: said in words, and nothing is written. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import type { Input, OperationName, Output } from "../../../app/contract/contract.ts";
import { valueOf } from "../../../main/page/door.ts";
import { composeService } from "../../../main/service/compose.ts";

let folder: string;
let service: ReturnType<typeof composeService>;
const ask = async <N extends OperationName>(name: N, input: Input<N>): Promise<Output<N>> =>
  valueOf(await service.call(name, input));
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-readings-"));
  service = composeService(false, () => undefined);
  await ask("ledger.demo", { path: join(folder, "tarn.coldstock"), which: "tarn" });
});
afterEach(async () => {
  await service.close();
  rmSync(folder, { recursive: true, force: true });
});

const stateOf = async () => {
  const { revision } = await ask("ledger.info", {});
  const { readings } = await ask("plan.view", { planCaseId: "baseline" });
  return { revision, readings: readings.length };
};

const asked = (text: string): Input<"rows.import"> => ({
  kind: "readings",
  planCaseId: "baseline",
  source: { fileName: "readings.csv", text },
  sheet: null,
  mapping: { columns: [], dates: null, decimals: null, separator: null },
  goodRowsOnly: false,
});

const head = "tank,at,kg,sigma kg";
const good = "Tarn hydrogen,2031-06-02,5600,51";

test.each([
  ["no uncertainty", "Tarn hydrogen,2031-06-03,5590,0", /sigma|uncertain|above 0|small/i],
  ["a level above the tank", "Tarn hydrogen,2031-06-03,90000,51", /far above/],
  ["an instant of a reading that is there", "Tarn hydrogen,2031-06-01,5600,51", /already|there is a reading|twice/i],
  ["an instant twice in one file", "Tarn hydrogen,2031-06-02,5601,51", /already|twice|same/i],
  ["an instant that is none", "Tarn hydrogen,2031-06-31,5590,51", /no date|date/i],
  ["a mass that is none", "Tarn hydrogen,2031-06-03,full,51", /number/i],
])("import with %s: said at its line, not one row is taken", async (_, row, words) => {
  const before = await stateOf();
  const reply = await ask("rows.import", asked([head, good, row].join("\n")));
  expect(reply.isTaken).toBe(false);
  expect(reply.faults).toHaveLength(1);
  expect(reply.faults[0]!.line).toBe(3);
  expect(reply.faults[0]!.reason).toMatch(words);
  expect(await stateOf()).toEqual(before);
});

test("out of order is no fault: the rows are taken and stand in order of time", async () => {
  const before = await stateOf();
  const rows = [
    "Tarn hydrogen,2031-06-09,5540,51",
    "Tarn hydrogen,2031-06-02,5600,51",
    "Tarn hydrogen,2031-06-05,5570,51",
  ];
  const text = [head, ...rows].join("\n");
  expect((await ask("rows.import", asked(text))).isTaken).toBe(true);
  const { readings } = await ask("plan.view", { planCaseId: "baseline" });
  expect(readings).toHaveLength(before.readings + 3);
  const own = readings.filter(({ tankId }) => tankId === "tarn-hydrogen").map(({ at }) => at);
  expect(own).toEqual(own.toSorted((a, b) => a - b));
});

test.each([
  ["no uncertainty", { sigmaKg: 0 }],
  ["a level below nothing", { massKg: -5 }],
])("a recorded reading with %s is refused", async (_, change) => {
  const before = await stateOf();
  const reading = {
    id: "bad",
    tankId: "tarn-hydrogen",
    at: Date.UTC(2031, 5, 3),
    massKg: 5600,
    sigmaKg: 51,
    takeIntoBooks: true,
    note: "",
    ...change,
  };
  expect((await service.call("record.reading", reading)).ok).toBe(false);
  expect(await stateOf()).toEqual(before);
});
