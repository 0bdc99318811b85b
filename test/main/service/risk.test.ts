/** Risk through the service, in real threads: run, stop, compare, keep, stale, replay; and a thread that is killed. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { AskedChoices } from "../../../app/ledger/report-request.ts";
import { threadPool } from "../../../main/service/work/thread-pool.ts";
import { startTestService, type TestService } from "./test-service.ts";
import { workerProgram } from "../../suite/programs.ts";

const planCaseId = "baseline";
const asked = { planCaseId, seed: 1, runs: 6400, untilError: null, detail: "full" } as const;

let threads: TestService;
let inline: TestService;
beforeAll(async () => {
  threads = startTestService(threadPool(workerProgram, true));
  inline = startTestService();
  for (const test of [threads, inline])
    await test.service.call("ledger.demo", { path: test.path("tarn"), which: "tarn" });
});
afterAll(async () => {
  await threads.end();
  await inline.end();
});

const valueOf = <T>(
  reply:
    | { readonly ok: true; readonly value: T }
    | { readonly ok: false; readonly failure: { readonly message: string } },
): T => {
  if (!reply.ok) throw new Error(reply.failure.message);
  return reply.value;
};

/** States a slip of every flight, so that the plan changes. */
const state = async (test: TestService, meanDays: number) =>
  valueOf(
    await test.service.call("plan.edit", {
      label: "State a slip",
      reason: "",
      changes: [
        {
          op: "put",
          kind: "riskInput",
          value: {
            id: "baseline.risk-slip",
            planCaseId,
            uncertainty: {
              quantity: "flight slip",
              of: { kind: "every" },
              law: { kind: "exponential", noneShare: 0.4, meanDays },
            },
            source: "stated",
            note: "",
          },
        },
      ],
    }),
  );

/** What the report's first page and its section on the risk say in words. */
const paper = async ({ service }: TestService): Promise<string> => {
  const choices = {
    planCaseId,
    compareId: null,
    fromAt: null,
    untilAt: null,
    massUnit: "t" as const,
    paper: "A4" as const,
    sectionIds: ["verdict", "risk"],
  } satisfies AskedChoices;
  const report = valueOf(await service.call("report.show", { of: { kind: "draft", choices } }));
  return report.sections
    .flatMap(({ blocks }) => blocks)
    .map((block) =>
      block.kind === "verdict" ? (block.chance?.words ?? "") : block.kind === "paragraph" ? block.text : "",
    )
    .join("\n");
};

describe("a run", () => {
  it("gives the same answer in threads and without, and says what is assumed", async () => {
    const here = valueOf(await inline.service.call("risk.run", asked));
    const there = valueOf(await threads.service.call("risk.run", asked));
    expect(JSON.stringify(there)).toBe(JSON.stringify(here));
    expect(there).toMatchObject({ replications: 6400, end: "number reached", planCaseId });
    const inputs = valueOf(await inline.service.call("risk.inputs", { planCaseId }));
    expect(there.inputs).toEqual({
      count: inputs.length,
      assumed: inputs.filter(({ source }) => source === null).length,
    });
    expect(there.bands.length).toBeGreaterThan(0);
  });

  it("refuses what cannot be asked, with the field", async () => {
    for (const [over, field] of [
      [{ runs: 0 }, "runs"],
      [{ seed: -1 }, "seed"],
      [{ untilError: 0 }, "untilError"],
      [{ detail: "some" }, "detail"],
    ] as const) {
      const reply = await inline.service.call("risk.run", { ...asked, ...over } as never);
      expect(reply).toMatchObject({ ok: false, failure: { code: "invalid input", field } });
    }
    expect(await inline.service.call("risk.run", { ...asked, planCaseId: "nowhere" })).toMatchObject({
      ok: false,
      failure: { code: "not found" },
    });
  });
});

it("a case beside itself does not differ, beside another it does", async () => {
  const compare = { seed: 1, runs: 3200 };
  const same = valueOf(await threads.service.call("risk.compare", { planCaseId, compareId: planCaseId, ...compare }));
  expect(same.allFly.value).toBe(0);
  const { planCases } = valueOf(await threads.service.call("ledger.info", {}));
  const other = planCases.find(({ id }) => id !== planCaseId)?.id ?? "";
  const different = valueOf(await threads.service.call("risk.compare", { planCaseId, compareId: other, ...compare }));
  expect(different.sorties.length).toBeGreaterThan(0);
  expect(different.sorties.some(({ flies }) => flies.value !== 0)).toBe(true);
});

describe("a thread that dies in the middle of a run", () => {
  const few = { ...asked, runs: 2048, detail: "quick" } as const;
  const underDeaths = async (deaths: number) => {
    const folder = mkdtempSync(join(tmpdir(), "coldstock-deaths-"));
    const file = join(folder, "deaths");
    writeFileSync(file, String(deaths));
    process.env["COLDSTOCK_TEST_DEATHS"] = file;
    const worker = fileURLToPath(new URL("./dying-worker.ts", import.meta.url));
    const test = startTestService(threadPool(worker, false));
    try {
      await test.service.call("ledger.demo", { path: test.path("tarn"), which: "tarn" });
      const reply = await test.service.call("risk.run", few);
      return { reply, left: Number(readFileSync(file, "utf8")) };
    } finally {
      await test.end();
      delete process.env["COLDSTOCK_TEST_DEATHS"];
      rmSync(folder, { recursive: true, force: true });
    }
  };

  it("once, leaves the answer whole, to the letter", async () => {
    const { reply, left } = await underDeaths(1);
    // It did die.
    expect(left).toBe(0);
    const here = valueOf(await inline.service.call("risk.run", few));
    expect(JSON.stringify(valueOf(reply))).toBe(JSON.stringify(here));
  });

  it("over and over, fails the run in words: there is no short count", async () => {
    const { reply } = await underDeaths(1000);
    expect(reply).toMatchObject({
      ok: false,
      failure: { message: expect.stringMatching(/broke down twice/) as string },
    });
  });
});

it("what it hangs on names inputs and flights of the plan", async () => {
  const causes = valueOf(await threads.service.call("risk.causes", { planCaseId, seed: 1, runs: 640 }));
  const { plan } = valueOf(await threads.service.call("plan.view", { planCaseId }));
  expect(causes.isWhole).toBe(true);
  expect(causes.drivers.length).toBeGreaterThan(3);
  const flights = new Set(plan.flights.map(({ id }) => id));
  expect(causes.dropOne.every(({ flightIds: [id] }) => flights.has(id ?? ""))).toBe(true);
});

it("a run is kept, grows stale with an edit, is itself again when that is undone, and replays to the byte", async () => {
  const { service } = inline;
  const kept = valueOf(await service.call("risk.keep", asked));
  expect(kept).toMatchObject({ number: 1, seed: 1, replications: 6400, planCaseId, author: "tester" });
  const stale = async () => valueOf(await service.call("risk.runs", {})).map(({ isStale }) => isStale);
  expect(await stale()).toEqual([false]);
  // A report takes the kept run as long as it is of the plan as it is, and says which; else a quick answer.
  expect(await paper(inline)).toMatch(/6.400 runs, .*6.400 runs, seed 1, kept as run 1/s);
  expect(valueOf(await service.call("risk.replay", { number: 1 }))).toEqual({ number: 1, isSame: true, remark: null });
  await state(inline, 12);
  expect(await stale()).toEqual([true]);
  expect(await paper(inline)).toMatch(/4.096 runs, .*4.096 runs, seed 1\./s);
  expect(valueOf(await service.call("risk.replay", { number: 1 })).remark).toMatch(/no longer those of this run/);
  const answer = valueOf(await service.call("risk.kept", { number: 1 }));
  expect(answer).toMatchObject({ replications: 6400 });
  await service.call("plan.undo", {});
  expect(await stale()).toEqual([false]);
  expect(valueOf(await service.call("risk.delete", { number: 1 }))).toEqual({ number: 1 });
  expect(valueOf(await service.call("risk.runs", {}))).toEqual([]);
});
