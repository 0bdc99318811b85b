/**
 * Issues of reports through the service: the same issue prints to the same bytes in every form, whatever becomes of the
 * plan, the program that draws it, and the file; and the next one tells what changed since.
 */
import { createHash } from "node:crypto";
import { parse } from "csv-parse/sync";
import ICAL from "ical.js";
import { read } from "@e965/xlsx";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Input, OperationName, Output } from "../../../app/contract/contract.ts";
import { documentText } from "../../../app/exchange/ledger-document.ts";
import { cellForPeople } from "../../../app/report/format/cell-text.ts";
import { shortHash } from "../../../app/report/format/subtitle.ts";
import type { ReportModel, Table } from "../../../app/report/model.ts";
import { type AskedChoices, type ReportForm, reportForms } from "../../../app/ledger/report-request.ts";
import { forFont } from "../../../main/report/pdf-page.ts";
import { threadPool } from "../../../main/service/work/thread-pool.ts";
import { startTestService, type TestService } from "../service/test-service.ts";
import { pdfText, plain } from "./read-pdf.ts";
import { workerProgram } from "../../suite/programs.ts";

const DAY = 86_400_000;

let rig: TestService;
beforeEach(async () => {
  // The clock of the machine moves on between two printings, whatever the service's own clock says.
  vi.useFakeTimers({ toFake: ["Date"], now: Date.UTC(2026, 0, 1) });
  rig = startTestService();
  await ask("ledger.demo", { path: rig.path("tarn"), which: "tarn" });
});
afterEach(async () => {
  const { defects } = rig;
  await rig.end();
  vi.useRealTimers();
  if (defects.length > 0) throw new Error(`the service logged a defect: ${defects.join("\n")}`);
});

const ask = async <N extends OperationName>(name: N, input: Input<N>): Promise<Output<N>> => {
  const reply = await rig.service.call(name, input);
  if (!reply.ok) throw new Error(`${reply.failure.code}: ${reply.failure.message}`);
  return reply.value;
};

const choices: AskedChoices = {
  planCaseId: "baseline",
  compareId: "extra-packhorse",
  fromAt: null,
  untilAt: null,
  massUnit: "t",
  paper: "A4",
  sectionIds: null,
};

const write = async (number: number, form: ReportForm): Promise<string> =>
  (
    await ask("report.write", {
      of: { kind: "issue", number },
      form,
      tableId: form === "csv" ? "supply" : null,
    })
  ).base64;

/** SHA-256 of every form's bytes. */
const everyForm = async (number: number): Promise<Record<string, string>> =>
  Object.fromEntries(
    await Promise.all(
      reportForms.map(
        async (form) =>
          [
            form,
            createHash("sha256")
              .update(await write(number, form))
              .digest("hex"),
          ] as const,
      ),
    ),
  );

const flights = async () => (await ask("plan.view", { planCaseId: "baseline" })).plan.flights;

/** Puts a planned flight off by half a year and cancels another: the report of the plan is another one then. */
const upset = async (): Promise<void> => {
  const planned = (await flights()).filter((flight) => flight.status === "planned");
  const [first, second] = planned;
  if (first === undefined || second === undefined) throw new Error("the demonstration has two planned flights");
  await ask("plan.edit", {
    label: `Put ${first.name} off`,
    reason: "weather",
    changes: [
      {
        op: "put",
        kind: "flight",
        value: { ...first, departAt: first.departAt + 180 * DAY, arriveAt: first.arriveAt + 180 * DAY },
      },
      { op: "put", kind: "flight", value: { ...second, status: "cancelled" } },
    ],
  });
};

const tablesOf = (report: ReportModel): readonly Table[] =>
  report.sections.flatMap(({ blocks }) => blocks.filter((block): block is Table => block.kind === "table"));

const changesOf = (report: ReportModel): string =>
  JSON.stringify(report.sections.find(({ id }) => id === "changes")?.blocks);

test("after the plan was edited and the case deleted, an issue prints to the same bytes in every form", async () => {
  const issue = await ask("report.issue", { choices, note: "Readiness review" });
  expect(issue).toMatchObject({ number: 1, author: "tester", caseName: "Baseline", note: "Readiness review" });
  const first = await everyForm(1);
  const before = await ask("report.show", { of: { kind: "draft", choices } });
  await upset();
  const after = await ask("report.show", { of: { kind: "draft", choices } });
  // The edit is no small one: the report of the plan as it is now is another.
  expect(tablesOf(after)).not.toEqual(tablesOf(before));
  expect(after.inputHash).not.toBe(before.inputHash);
  vi.setSystemTime(Date.UTC(2027, 4, 5, 6, 7, 8));
  expect(await everyForm(1)).toEqual(first);
  await ask("case.remove", { planCaseId: "baseline" });
  expect(await everyForm(1)).toEqual(first);
  // Closed and opened again.
  await ask("ledger.demo", { path: rig.path("other"), which: "beck" });
  await ask("ledger.open", { path: rig.path("tarn") });
  expect(await everyForm(1)).toEqual(first);
  expect(await ask("ledger.verify", {})).toMatchObject({ isSound: true, faults: [] });
});

test("and so it does from a copy that went out as JSON and came in again", async () => {
  await ask("report.issue", { choices, note: "" });
  const first = await everyForm(1);
  const text = documentText(await ask("ledger.export", {}));
  await ask("ledger.import", { path: rig.path("copy"), text });
  expect(await everyForm(1)).toEqual(first);
});

test("every form of an issue, read back by another library, holds the figures of its supply table", async () => {
  await ask("report.issue", { choices, note: "Readiness review" });
  const report = await ask("report.show", { of: { kind: "issue", number: 1 } });
  const supply = tablesOf(report).find(({ id }) => id === "supply")!;
  expect(supply.rows.length).toBeGreaterThan(10);
  const shown = supply.rows.flat().map((cell) => cellForPeople(cell, "t"));

  const pdf = await pdfText(Buffer.from(await write(1, "pdf"), "base64"));
  for (const figure of shown) expect(pdf).toContain(plain(forFont(figure)));
  expect(pdf).toContain(plain(`Issue 1 of 2031-06-01, by tester. Readiness review.`));
  expect(pdf).toContain(plain(shortHash(report.inputHash)));

  const page = Buffer.from(await write(1, "html"), "base64").toString("utf8");
  for (const figure of shown) expect(page).toContain(figure);

  const sheet = read(Buffer.from(await write(1, "xlsx"), "base64")).Sheets["supply"]!;
  supply.rows.forEach((row, index) => {
    const cell = row[3]!;
    if (cell.kind === "mass") expect((sheet[`D${index + 2}`] as { v: number }).v).toBeCloseTo(cell.kg / 1000, 9);
  });

  const rows: string[][] = parse(Buffer.from(await write(1, "csv"), "base64").toString("utf8"));
  supply.rows.forEach((row, index) => {
    const cell = row[3]!;
    if (cell.kind === "mass") expect(Number(rows[index + 1]![3])).toBeCloseTo(cell.kg / 1000, 9);
  });

  const calendar = new ICAL.Component(ICAL.parse(Buffer.from(await write(1, "ics"), "base64").toString("utf8")));
  const summaries = calendar.getAllSubcomponents("vevent").map((event) => new ICAL.Event(event).summary);
  for (const { name, status } of (await ask("plan.view", { planCaseId: "baseline" })).plan.sorties)
    if (status !== "cancelled" && status !== "stood down")
      expect(summaries.map((summary) => summary.replace(/: short of propellant$/, ""))).toContain(name);
});

test("the next report tells what was edited since the last issue, and which sortie stands otherwise", async () => {
  await upset();
  await ask("plan.undo", {});
  await ask("report.issue", { choices, note: "" });
  const still = changesOf(await ask("report.show", { of: { kind: "draft", choices } }));
  expect(still).toContain("Since issue 1 of 2031-06-01, nothing was edited.");
  expect(still).toContain("Every sortie stands as in issue 1.");
  await upset();
  const changed = await ask("report.show", { of: { kind: "draft", choices } });
  expect(changesOf(changed)).toMatch(/Since issue 1 of 2031-06-01, the latest step first/);
  expect(changesOf(changed)).toMatch(/tester: Put .+ off \(weather\)/);
  expect(changesOf(changed)).toMatch(/was supplied and is short now|was thin and is short now/);
  await ask("plan.undo", {});
  expect(changesOf(await ask("report.show", { of: { kind: "draft", choices } }))).toMatch(/tester: undone: Put/);
  // Each plan case has its own last issue.
  await ask("plan.redo", {});
  const other = { ...choices, planCaseId: "extra-packhorse", compareId: null };
  expect(changesOf(await ask("report.show", { of: { kind: "draft", choices: other } }))).toContain(
    "was not issued before",
  );
});

test("numbers rise, the list has them all, and one hash of inputs means: made from the same", async () => {
  const first = await ask("report.issue", { choices, note: "" });
  const second = await ask("report.issue", { choices, note: "" });
  await upset();
  const third = await ask("report.issue", { choices, note: "" });
  expect([first, second, third].map(({ number }) => number)).toEqual([1, 2, 3]);
  expect(second.inputHash).toBe(first.inputHash);
  expect(third.inputHash).not.toBe(first.inputHash);
  expect(second.seal).not.toBe(first.seal);
  expect(await ask("report.issues", {})).toEqual([first, second, third]);
});

test.each<[string, Partial<AskedChoices>, RegExp]>([
  ["a plan case that does not exist", { planCaseId: "none" }, /not found/],
  ["a section that does not exist", { sectionIds: ["weather"] }, /no report section/],
  ["a period that ends before it begins", { fromAt: 2 * DAY, untilAt: DAY }, /ends before it begins/],
])("%s is refused, and nothing is kept", async (_what, wrong, refusal) => {
  await expect(ask("report.issue", { choices: { ...choices, ...wrong }, note: "" })).rejects.toThrow(refusal);
  expect(await ask("report.issues", {})).toEqual([]);
});

test("a note of two lines and an issue that does not exist are refused in words", async () => {
  await expect(ask("report.issue", { choices, note: "one\ntwo" })).rejects.toThrow(/one line/);
  await expect(write(7, "pdf")).rejects.toThrow(/not found: There is no issue 7/);
});

test("writing a report runs in a thread: it tells how far it has come, and can be stopped", async () => {
  const threaded = startTestService(threadPool(workerProgram, true));
  try {
    await threaded.service.call("ledger.demo", { path: threaded.path("tarn"), which: "tarn" });
    const words = new Set<string>();
    const stop = threaded.service.listen(({ event, payload }) => {
      if (event === "progress") words.add(payload.words);
    });
    const request = { of: { kind: "draft", choices }, form: "pdf", tableId: null } as const;
    const whole = await threaded.service.call("report.write", request, "job-1");
    expect(whole).toMatchObject({ ok: true, value: { mediaType: "application/pdf" } });
    expect([...words]).toContain("Writing the report");
    stop();
    const stopped = threaded.service.call("report.write", request, "job-2");
    await threaded.service.call("job.cancel", { jobId: "job-2" });
    expect(await stopped).toMatchObject({ ok: false, failure: { code: "cancelled" } });
  } finally {
    await threaded.end();
  }
});

test("the schema of kept content is the whole of the report model: what is kept is what was shown", async () => {
  const issue = await ask("report.issue", { choices, note: "" });
  const kept = await ask("report.show", { of: { kind: "issue", number: 1 } });
  const drawn = await ask("report.show", { of: { kind: "draft", choices } });
  expect(kept.inputHash).toBe(issue.inputHash);
  // What tells of the issue before, and when it was made, is another's by nature.
  const ofItsOwn = /^(?:As of|Changed|Since issue)/;
  const without = (report: ReportModel) =>
    report.sections
      .filter(({ id }) => id !== "changes")
      .map(({ blocks }) =>
        blocks.map((block) =>
          block.kind === "facts" ? block.items.filter(({ term }) => !ofItsOwn.test(term)) : block,
        ),
      );
  expect(without(kept)).toEqual(without(drawn));
});

test("every plan case of both demonstrations can be issued, compared and not, and is read back", async () => {
  for (const which of ["tarn", "beck"] as const) {
    const { planCases } = await ask("ledger.demo", { path: rig.path(`all-${which}`), which });
    for (const { id: planCaseId } of planCases)
      for (const compareId of [null, planCases.find(({ id }) => id !== planCaseId)?.id ?? null])
        await ask("report.issue", { choices: { ...choices, planCaseId, compareId, massUnit: "kg" }, note: which });
    const issues = await ask("report.issues", {});
    expect(issues).toHaveLength(2 * planCases.length);
    for (const { number } of issues)
      expect((await ask("report.show", { of: { kind: "issue", number } })).issueNumber).toBe(number);
  }
});
