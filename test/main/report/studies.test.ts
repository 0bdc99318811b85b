/** Kept studies in the report of a real ledger: not there without one, the figure at the plan as it is, whole in the workbook, stale after an edit. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { read, utils } from "@e965/xlsx";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Input, OperationName, Output } from "../../../app/contract/contract.ts";
import type { AskedChoices } from "../../../app/ledger/report-request.ts";
import type { ReportModel } from "../../../app/report/model.ts";
import { allSectionIds } from "../../../app/report/sections.ts";
import { parseStudy } from "../../../app/study/resolve.ts";
import { cellAt, rowsIn } from "../../../app/study/study-table.ts";
import { composeService } from "../../../main/service/compose.ts";

const service = composeService(false, () => undefined);
const folder = mkdtempSync(join(tmpdir(), "coldstock-report-studies-"));
const call = async <N extends OperationName>(name: N, input: Input<N>): Promise<Output<N>> => {
  const reply = await service.call(name, input);
  if (!reply.ok) throw new Error(reply.failure.message);
  return reply.value;
};
const choices = {
  planCaseId: "baseline",
  compareId: null,
  fromAt: null,
  untilAt: null,
  massUnit: "t" as const,
  paper: "A4" as const,
  // Sections that run no risk: the test is of the studies.
  sectionIds: ["supply", "studies", "changes"],
} satisfies AskedChoices;
const draft = (sectionIds: readonly string[]) =>
  ({ kind: "draft", choices: { ...choices, sectionIds: [...sectionIds] } }) satisfies Input<"report.show">["of"];
const usual = draft(["supply", "studies", "changes"]);
const blocksOf = (report: ReportModel) => report.sections.find(({ id }) => id === "studies")?.blocks ?? [];

/** 0, 0.5 … 3 by 1, 1.5 … 4 t: the plan as it is, 1 and 1.5 t, is one of the points. */
const asked = parseStudy({
  name: "Losses and reserve",
  inputs: [
    { quantity: "loss factor", values: { kind: "range", from: 0, to: 3, count: 7 } },
    { quantity: "reserve", tank: "Tarn hydrogen", values: { kind: "range", from: 1000, to: 4000, count: 7 } },
  ],
  design: { kind: "grid" },
  ask: [{ kind: "supply" }],
});

beforeAll(async () => {
  await call("ledger.demo", { path: join(folder, "tarn.coldstock"), which: "tarn" });
});
afterAll(async () => {
  await service.close();
  rmSync(folder, { recursive: true });
});

test("where none is kept a report is what it was before there were studies; asked for alone, it says that there is none", async () => {
  const before = await call("report.show", { of: draft(["supply", "changes"]) });
  const now = await call("report.show", { of: usual });
  expect({ ...now, issuedAt: 0 }).toEqual({ ...before, issuedAt: 0 });
  expect(allSectionIds).toContain("studies");
  const alone = await call("report.show", { of: draft(["studies"]) });
  expect(blocksOf(alone)).toEqual([{ kind: "paragraph", text: "No study of this plan case is kept in the ledger." }]);
});

test("the figure says at the plan as it is what the supply check says; the workbook has every point, the page the first", async () => {
  const answer = await call("study.ask", { planCaseId: "baseline", asked, from: 0 });
  await call("study.keep", { planCaseId: "baseline", asked });
  const report = await call("report.show", { of: usual });
  const chart = blocksOf(report).find((block) => block.kind === "chart");
  const { plan } = await call("plan.view", { planCaseId: "baseline" });
  const check = await call("supply.check", { planCaseId: "baseline" });
  expect(plan.tanks.find(({ name }) => name === "Tarn hydrogen")?.reserveKg).toBe(1500);
  const supplied = check.sorties.filter(({ status }) => status === "supplied").length;
  const words = chart?.description.replaceAll("\u202f", " ") ?? "";
  const line = /Reserve in Tarn hydrogen 1\.5 t: ([^.]*(?:\.\d[^.]*)*)\./.exec(words)?.[1] ?? "";
  const atToday = line.split("; ").find((part) => {
    const [from = Number.NaN, to = from] = (part.split(": ")[0] ?? "").split(" to ").map(Number);
    return from <= 1 && 1 <= to;
  });
  expect(atToday).toMatch(new RegExp(`: ${supplied}$`));

  const table = blocksOf(report).find((block) => block.kind === "table");
  expect(table?.rows).toHaveLength(24);
  expect(table?.caption).toContain("the first 24 of 49 points");
  const file = await call("report.write", { of: usual, form: "xlsx", tableId: null });
  const rows = utils.sheet_to_json<readonly unknown[]>(
    read(Buffer.from(file.base64, "base64")).Sheets["study-1"] ?? {},
    { header: 1 },
  );
  expect(rows).toHaveLength(1 + rowsIn(answer.rows));
  const place = answer.columns.findIndex(({ name }) => name === "supplied");
  expect(rows[0]?.[place]).toBe("Sorties supplied");
  expect(rows.slice(1).map((row) => row[place])).toEqual(
    Array.from({ length: 49 }, (_, row) => cellAt(answer.rows, row, place)),
  );
  // Kept in kilograms, shown in the report's unit.
  expect(rows[0]?.[1]).toBe("Reserve in Tarn hydrogen [t]");
  expect(rows[2]?.[1]).toBe(1.5);
});

test("after an edit the study is told as stale, and another report is another hash; an issue keeps what was told then", async () => {
  const fresh = await call("report.show", { of: usual });
  const issue = await call("report.issue", { choices, note: "" });
  const { plan } = await call("plan.view", { planCaseId: "baseline" });
  const flight = plan.flights.find(({ status }) => status === "planned");
  if (flight === undefined) throw new Error("no flight");
  await call("plan.edit", {
    label: "Later",
    reason: "",
    changes: [{ op: "put", kind: "flight", value: { ...flight, arriveAt: flight.arriveAt + 60_000 } }],
  });
  const stale = await call("report.show", { of: usual });
  expect(stale.inputHash).not.toBe(fresh.inputHash);
  const cautions = (report: ReportModel) =>
    blocksOf(report).flatMap((block) => (block.kind === "caution" ? [block.text] : []));
  expect(cautions(fresh)).toEqual([]);
  expect(cautions(stale)).toEqual([expect.stringMatching(/^Study 1 is stale\. The plan, its records/)]);
  const kept = await call("report.show", { of: { kind: "issue", number: issue.number } });
  expect(blocksOf(kept)).toEqual(JSON.parse(JSON.stringify(blocksOf(fresh))));
});
