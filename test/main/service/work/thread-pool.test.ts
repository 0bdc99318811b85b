/** The pool of threads: stopping, dying, making way, spreading, and what is sent once. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { Lane } from "../../../../app/contract/operation.ts";
import type { Progress } from "../../../../app/work/working.ts";
import { inlineRunner, type WorkRunner } from "../../../../main/service/work/runner.ts";
import { threadPool } from "../../../../main/service/work/thread-pool.ts";
import { findTrial } from "./trial-works.ts";

const worker = fileURLToPath(new URL("./trial-worker.ts", import.meta.url));

let pool: WorkRunner;
let folder: string;
beforeEach(() => {
  pool = threadPool(worker, false, findTrial);
  folder = mkdtempSync(join(tmpdir(), "coldstock-pool-"));
});
afterEach(async () => {
  await pool.close();
  rmSync(folder, { recursive: true, force: true });
});

interface Asking {
  readonly base?: unknown;
  readonly baseKey?: string | null;
  readonly asked?: unknown;
  readonly lane?: Lane;
  readonly signal?: AbortSignal;
  readonly tell?: (progress: Progress) => void;
}

/** The trial computations have names of their own, which the table of the product does not know. */
const ask = async (name: string, asking: Asking = {}, runner: WorkRunner = pool): Promise<unknown> => {
  const { base = null, baseKey = null, asked = null, lane = "interactive" } = asking;
  const run = runner.run as (task: unknown, stop: AbortSignal, tell: (progress: Progress) => void) => Promise<unknown>;
  return await run(
    { name, base, baseKey, asked, lane },
    asking.signal ?? new AbortController().signal,
    asking.tell ?? (() => undefined),
  );
};

describe("a computation that is stopped", () => {
  it("answers what it has if it looks, and its thread goes on to the next", async () => {
    const stop = new AbortController();
    const answer = ask("count", { asked: { ms: 60_000 }, signal: stop.signal, tell: () => stop.abort() });
    expect(await answer).toMatchObject({ isWhole: false });
    expect(await ask("count", { asked: { ms: 1 } })).toMatchObject({ isWhole: true });
  });

  it("is ended with its thread if it does not look, and another thread takes the next", async () => {
    const stop = new AbortController();
    const answer = ask("deaf", { asked: { ms: 60_000 }, signal: stop.signal });
    setTimeout(() => stop.abort(), 100);
    await expect(answer).rejects.toMatchObject({ name: "AbortError" });
    expect(await ask("count", { asked: { ms: 1 } })).toMatchObject({ isWhole: true });
  });

  it("is not begun if it was stopped before, or while it waited", async () => {
    await expect(ask("count", { asked: { ms: 1 }, signal: AbortSignal.abort() })).rejects.toMatchObject({
      name: "AbortError",
    });
    const ends = new AbortController();
    const stop = new AbortController();
    const before = Array.from({ length: 20 }, () => ask("count", { asked: { ms: 60_000 }, signal: ends.signal }));
    const waiting = ask("count", { asked: { ms: 60_000 }, signal: stop.signal });
    stop.abort();
    await expect(waiting).rejects.toMatchObject({ name: "AbortError" });
    ends.abort();
    await Promise.allSettled(before);
  });
});

describe("a thread that dies", () => {
  const deaths = (count: number): string => {
    const file = join(folder, "deaths");
    writeFileSync(file, String(count));
    return file;
  };

  it("once, has its computation run again", async () =>
    expect(await ask("dies", { asked: { file: deaths(1) } })).toBe("alive"));

  it("twice, fails it in words, and the pool goes on", async () => {
    await expect(ask("dies", { asked: { file: deaths(2) } })).rejects.toMatchObject({
      code: "defect",
      message: expect.stringMatching(/broke down twice/) as string,
    });
    expect(await ask("count", { asked: { ms: 1 } })).toMatchObject({ isWhole: true });
  });
});

describe("what a computation throws", () => {
  it("crosses with its code and field if it is for the person", async () =>
    await expect(ask("refuses")).rejects.toMatchObject({ code: "refused", message: "Not on a Sunday.", field: "day" }));

  it("crosses with its stack for the log if it is a defect", async () =>
    await expect(ask("broken")).rejects.toMatchObject({
      stack: expect.stringMatching(/fault of the program/) as string,
    }));
});

describe("what is sent", () => {
  it("of a base goes once to a thread, which then has the very same object", async () => {
    const base = { numbers: [1, 2, 3] };
    const first = await ask("known", { base, baseKey: "k" });
    const again = await ask("known", { base: { numbers: [9] }, baseKey: "k" });
    expect([first, again]).toEqual([
      { isKnown: false, sum: 6 },
      { isKnown: true, sum: 6 },
    ]);
  });

  it("goes to a new thread where the last had grown large, which is not kept with its memory", async () => {
    const base = { numbers: [1, 2, 3] };
    await ask("known", { base, baseKey: "k" });
    expect(await ask("hungry")).toBe(250);
    expect(await ask("known", { base, baseKey: "k" })).toEqual({ isKnown: false, sum: 6 });
  });

  it("is forgotten after a while, and sent again when it is asked for", async () => {
    const sums: unknown[] = [];
    // eslint-disable-next-line no-await-in-loop -- one thread, one after the other
    for (let round = 0; round < 30; round += 1)
      sums.push(await ask("known", { base: { numbers: [round % 15] }, baseKey: `${round % 15}` }));
    expect(sums).toEqual(Array.from({ length: 30 }, (_, round) => ({ isKnown: false, sum: round % 15 })));
  });

  it("back keeps its types: arrays of numbers stay such", async () => {
    const answer = (await ask("arrays", { asked: { length: 1000 } })) as { levels: Float64Array; view: Float64Array };
    expect(answer.levels).toBeInstanceOf(Float64Array);
    expect(answer.levels[999]).toBe(333);
    expect(answer.view).toEqual(new Float64Array(2));
  });
});

describe("a computation in parts", () => {
  const numbers = Array.from({ length: 20 }, (_, place) => place);
  const squares = numbers.map((number) => number * number);

  it("gives the answers in the order of the parts, in threads as here", async () => {
    const task = { base: { numbers }, baseKey: "n", asked: { ms: 3 } };
    const there = await ask("squares", task);
    expect(there).toEqual({ squares, isWhole: true });
    expect(await ask("squares", task, inlineRunner(findTrial))).toEqual(there);
  });

  it("tells what is known so far, and stopped it says that it is not whole", async () => {
    const stop = new AbortController();
    const partials: unknown[] = [];
    const answer = (await ask("squares", {
      base: { numbers },
      baseKey: "n",
      asked: { ms: 20 },
      signal: stop.signal,
      tell: ({ partial }) => {
        partials.push(partial);
        if (partials.length === 1) stop.abort();
      },
    })) as { squares: readonly number[]; isWhole: boolean };
    expect(answer.isWhole).toBe(false);
    expect(answer.squares.length).toBeLessThan(20);
    expect(partials.length).toBeGreaterThanOrEqual(1);
  });
});

describe("interactive work", () => {
  it("does not wait for batch work, however much of it there is", async () => {
    const stop = new AbortController();
    const batch = Array.from({ length: 12 }, () =>
      ask("deaf", { asked: { ms: 60_000 }, lane: "batch", signal: stop.signal }),
    );
    expect(await ask("count", { asked: { ms: 1 } })).toMatchObject({ isWhole: true });
    stop.abort();
    await Promise.allSettled(batch);
  });

  it("makes batch work pause that would take its core, and lets it go on after", async () => {
    const batch = Array.from({ length: 8 }, () => ask("count", { asked: { ms: 200 }, lane: "batch" }));
    await ask("count", { asked: { ms: 50 } });
    for (const answer of await Promise.all(batch)) expect(answer).toMatchObject({ isWhole: true });
  });
});
