/**
 * The memory of a long day: a host with its threads under edits and checks, after it has warmed up. Shortened: what an
 * hour would add at one edit with a check a second, from the slope over some hundred of them.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Input, OperationName, Output } from "../../app/contract/contract.ts";
import { composeService } from "../../main/service/compose.ts";
import { type Bench, type BenchFigure, BenchUnavailable } from "./bench.ts";

const WARM_UP = 600;
const MARKS = 6;
const BETWEEN = 250;
const HOUR = 3600;
const HOUR_MS = 3_600_000;

interface Mark {
  readonly edits: number;
  readonly residentMb: number;
  readonly heapMb: number;
}

/** Of a straight line through the points, least squares. */
const slope = (points: readonly (readonly [number, number])[]): number => {
  const mean = (place: 0 | 1): number => points.reduce((sum, point) => sum + point[place], 0) / points.length;
  const [x, y] = [mean(0), mean(1)];
  const across = points.reduce((sum, point) => sum + (point[0] - x) * (point[1] - y), 0);
  return across / points.reduce((sum, point) => sum + (point[0] - x) ** 2, 0);
};

const measure = async (folder: string): Promise<readonly Mark[]> => {
  if (globalThis.gc === undefined)
    throw new BenchUnavailable("Node must be started with --expose-gc, as npm run bench does.");
  const service = composeService(true, () => undefined);
  const ask = async <N extends OperationName>(name: N, input: Input<N>): Promise<Output<N>> => {
    const reply = await service.call(name, input);
    if (!reply.ok) throw new Error(`${name}: ${reply.failure.message}`);
    return reply.value;
  };
  try {
    await ask("ledger.demo", { path: join(folder, "day.coldstock"), which: "tarn" });
    const { plan } = await ask("plan.view", { planCaseId: "baseline" });
    const flight = plan.flights.find(({ status }) => status === "planned");
    if (flight === undefined) throw new Error("the demonstration has no planned flight");
    let edits = 0;
    const work = async (count: number): Promise<void> => {
      for (const until = edits + count; edits < until; edits += 1) {
        const later = (edits % 50) * HOUR_MS;
        const value = { ...flight, departAt: flight.departAt + later, arriveAt: flight.arriveAt + later };
        await ask("plan.edit", { label: "Move", reason: "", changes: [{ op: "put", kind: "flight", value }] });
        await ask("plan.view", { planCaseId: "baseline" });
        await ask("supply.check", { planCaseId: "baseline" });
      }
    };
    await work(WARM_UP);
    const marks: Mark[] = [];
    for (let n = 0; n < MARKS; n += 1) {
      await work(BETWEEN);
      globalThis.gc();
      const { rss, heapUsed } = process.memoryUsage();
      marks.push({ edits, residentMb: rss / 1e6, heapMb: heapUsed / 1e6 });
    }
    return marks;
  } finally {
    await service.close();
  }
};

const run = async (): Promise<readonly BenchFigure[]> => {
  const folder = mkdtempSync(join(tmpdir(), "coldstock-day-"));
  const home = process.env["COLDSTOCK_HOME"];
  process.env["COLDSTOCK_HOME"] = folder;
  try {
    const marks = await measure(folder);
    const hourOf = (value: (mark: Mark) => number): number =>
      HOUR * slope(marks.map((mark) => [mark.edits, value(mark)] as const));
    return [
      {
        name: "long day: resident memory an hour adds",
        value: hourOf(({ residentMb }) => residentMb),
        unit: "MB",
        limit: 30,
      },
      {
        name: "long day: JavaScript's own memory an hour adds",
        value: hourOf(({ heapMb }) => heapMb),
        unit: "MB",
        limit: 10,
      },
      { name: "long day: resident memory at its end", value: marks.at(-1)?.residentMb ?? 0, unit: "MB" },
    ];
  } finally {
    if (home === undefined) delete process.env["COLDSTOCK_HOME"];
    else process.env["COLDSTOCK_HOME"] = home;
    rmSync(folder, { recursive: true, force: true });
  }
};

export const bench: Bench = { name: "long day", run };
