/** `schedule` with flights between depots, with sorties that move, and interrupted: ledgers whose answer is known by hand. */
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { ResupplyAnswer } from "../../../app/resupply/answer.ts";
import { day, depot, flight, smallPlan, sortie, tank, carries } from "../../app/forecast/small-plan.ts";
import { familyPlan } from "../../bench/resupply-family.ts";
import { writeReferenceLedger } from "../../bench/reference-ledger.ts";
import { commandLineProgram } from "../../suite/programs.ts";
import { run } from "./terminal.ts";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-schedule-options-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The plan as a ledger file; hulls of classes that it has not are left out. */
const written = (name: string, plan: PlanSnapshot): string => {
  const path = join(folder, `${name}.coldstock`);
  const classes = new Set(plan.craftClasses.map(({ id }) => id));
  const craft = plan.craft.filter(({ classId }) => classes.has(classId));
  writeReferenceLedger(path, { ...plan, craft, riskInputs: [] });
  return path;
};

const withTrip = (plan: PlanSnapshot, tripDays: number): PlanSnapshot => ({
  ...plan,
  craftClasses: plan.craftClasses.map((row) => (row.role === "tanker" ? { ...row, tripDays } : row)),
});

const asked = async (...argv: readonly string[]): Promise<{ status: number; answer: ResupplyAnswer }> => {
  const { status, out } = await run("schedule", ...argv, "--json");
  return { status, answer: JSON.parse(out) as ResupplyAnswer };
};

const statuses = async (ledger: string, name: string): Promise<readonly string[]> => {
  const { out } = await run("check", ledger, "--case", name, "--json");
  return (JSON.parse(out) as { sorties: { status: string }[] }).sorties.map(({ status }) => status);
};

describe("--between-depots", () => {
  /**
   * Tarn and Corrie are empty; 1000 kg reach Corrie on day 3, and a tanker from the ground would take 30 days. A sortie
   * loads 500 kg at Tarn on day 10. A flight from Corrie with 600 kg that takes two days can do it: one that leaves from
   * day 3 to day 8. One that takes eight days cannot.
   */
  const ledger = (name: string) =>
    written(
      name,
      withTrip(
        smallPlan({
          depots: [depot("tarn"), depot("corrie")],
          tanks: [tank("a"), tank("b", { ownerId: "corrie" })],
          tanker: [carries({ loadKg: 600 })],
          flights: [flight("to-corrie", 1, 3, 1000, { depotId: "corrie", status: "firm" })],
          sorties: [sortie("s1", 10, 500)],
          horizonDay: 60,
        }),
        30,
      ),
    );

  it("lets a tanker draw at the other depot, in so many days, sooner than any could come from a source", async () => {
    const path = ledger("between");
    const without = await asked(path);
    expect(without.status).toBe(1);
    expect(without.answer.unheld.map(({ sortieId }) => sortieId)).toEqual(["s1"]);
    const { status, answer } = await asked(path, "--between-depots", "2", "--take", "Across");
    expect(status).toBe(0);
    expect(answer.bracket).toEqual({ lower: 1, upper: 1 });
    expect(answer.isProved).toBe(true);
    const [added] = answer.changes.map((change) => change.flight);
    expect(added?.origin).toEqual({ kind: "depot", depotId: "corrie" });
    expect(added?.depotId).toBe("tarn");
    expect(added?.departAt).toBeGreaterThanOrEqual(day(3));
    expect(added?.arriveAt).toBeLessThanOrEqual(day(10));
    expect((added?.arriveAt ?? 0) - (added?.departAt ?? 0)).toBe(day(2) - day(0));
    expect(await statuses(path, "Across")).toEqual(["supplied"]);
    expect((await asked(path, "--between-depots", "8")).status).toBe(1);
  });

  it("is refused as anything but days", async () => {
    const wrong = await run("schedule", ledger("between-wrong"), "--between-depots", "0");
    expect(wrong.status).toBe(2);
    expect(wrong.err).toContain("--between-depots is a number of days from 0.01 to 1000");
  });
});

describe("--move-sorties", () => {
  /** The tank is empty and nothing can be there before day 5; the sortie loads on day 3.5. Two days later it can. */
  const ledger = (name: string) =>
    written(name, smallPlan({ tanker: [carries({ loadKg: 600 })], sorties: [sortie("s1", 3.5, 500)], horizonDay: 60 }));

  it("moves a sortie by no more than is needed, and says that it did; a day is not enough", async () => {
    const path = ledger("moved");
    expect((await asked(path)).status).toBe(1);
    expect((await asked(path, "--move-sorties", "1")).status).toBe(1);
    const { status, answer } = await asked(path, "--move-sorties", "4", "--take", "Later");
    expect(status).toBe(0);
    expect(answer.sortiesMoved).toEqual([expect.objectContaining({ sortieId: "s1", loadAt: day(5.5) })]);
    expect(answer.bracket).toEqual({ lower: 1, upper: 1 });
    expect(await statuses(path, "Later")).toEqual(["supplied"]);
    const { out } = await run("schedule", path, "--move-sorties", "4");
    expect(out).toMatch(/s1 .*2 days later/);
    expect(out).toContain("that no others do better is not proved");
  });

  it("is refused as anything but whole days", async () => {
    const wrong = await run("schedule", ledger("moved-wrong"), "--move-sorties", "1.5");
    expect(wrong.status).toBe(2);
    expect(wrong.err).toContain("--move-sorties is a whole number of days");
  });
});

it("SIGINT ends a search with the best plan so far, says so, claims no more than was proved, and takes that plan", async () => {
  // Least flights with any one lost in five years of sorties: a plan in a second or two, the proof in many.
  const plan = familyPlan(4);
  const craftClasses = plan.craftClasses.map((row) => ({ ...row, id: row.id.toLowerCase() }));
  const path = written("family", { ...plan, craftClasses });
  const argv = ["schedule", path, "--keep-with-any-one-lost", "--take", "Best so far"];
  const child = spawn(process.execPath, [commandLineProgram, ...argv]);
  const text = { out: "", err: "" };
  let isInterrupted = false;
  child.stdout.on("data", (part: Buffer) => (text.out += part.toString()));
  child.stderr.on("data", (part: Buffer) => {
    text.err += part.toString();
    // A plan is there: the person has seen enough.
    if (isInterrupted || !/\d flights so far; fewer than \d+ are impossible/.test(text.err)) return;
    isInterrupted = true;
    child.kill("SIGINT");
  });
  const ended = await new Promise<{ status: number | null; signal: string | null }>((resolve) =>
    child.once("close", (status, signal) => resolve({ status, signal })),
  );
  expect({ ...ended, err: text.err }).toMatchObject({ status: 0, signal: null });
  expect(text.out).toMatch(/\d+ flights supply every sortie.*fewer than \d+ are impossible so far/);
  expect(text.out).toContain("the search was stopped");
  expect(text.out).toContain("Taken as plan case Best so far.");
  const taken = await statuses(path, "Best so far");
  expect(taken.length).toBe(40);
  expect(taken.every((status) => status === "supplied")).toBe(true);
});
