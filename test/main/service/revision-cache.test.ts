/** Answers kept as long as the ledger stays as it is; one computation for all who ask. */
import { describe, expect, it } from "vitest";
import { makeRevisionCache } from "../../../main/service/revision-cache.ts";

const at = (revision: number) => ({ path: "/a", revision });
const free = () => new AbortController().signal;

/** A computation that ends when it is told to. */
const slow = () => {
  let ended = false;
  let stopped = false;
  let count = 0;
  let end = (_value: string): void => undefined;
  const compute = (stop: AbortSignal): Promise<string> => {
    count += 1;
    return new Promise((resolve, reject) => {
      end = (value) => {
        ended = true;
        resolve(value);
      };
      stop.addEventListener("abort", () => {
        stopped = true;
        reject(stop.reason as Error);
      });
    });
  };
  return { compute, end: (value: string) => end(value), seen: () => ({ count, ended, stopped }) };
};

describe("at one revision", () => {
  it("two callers share one computation, and a third gets it later for nothing", async () => {
    const cache = makeRevisionCache();
    const work = slow();
    const two = [cache.share(at(1), "k", free(), work.compute), cache.share(at(1), "k", free(), work.compute)];
    work.end("answer");
    expect(await Promise.all(two)).toEqual(["answer", "answer"]);
    expect(await cache.share(at(1), "k", free(), work.compute)).toBe("answer");
    expect(work.seen().count).toBe(1);
  });

  it("other keys and other files are other computations", async () => {
    const cache = makeRevisionCache();
    const say = (word: string) => () => Promise.resolve(word);
    expect(await cache.share(at(1), "a", free(), say("a"))).toBe("a");
    expect(await cache.share(at(1), "b", free(), say("b"))).toBe("b");
    expect(await cache.share({ path: "/b", revision: 1 }, "a", free(), say("c"))).toBe("c");
  });

  it("does not keep a failure", async () => {
    const cache = makeRevisionCache();
    await expect(cache.share(at(1), "k", free(), () => Promise.reject(new Error("once")))).rejects.toThrow("once");
    expect(await cache.share(at(1), "k", free(), () => Promise.resolve("then"))).toBe("then");
  });

  it("a caller who leaves does not stop it for another", async () => {
    const cache = makeRevisionCache();
    const work = slow();
    const leaving = new AbortController();
    const gone = cache.share(at(1), "k", leaving.signal, work.compute);
    const staying = cache.share(at(1), "k", free(), work.compute);
    leaving.abort();
    await expect(gone).rejects.toMatchObject({ name: "AbortError" });
    expect(work.seen().stopped).toBe(false);
    work.end("answer");
    expect(await staying).toBe("answer");
  });

  it("stops when the last caller has left, and begins anew for the next", async () => {
    const cache = makeRevisionCache();
    const work = slow();
    const leaving = new AbortController();
    const gone = cache.share(at(1), "k", leaving.signal, work.compute);
    leaving.abort();
    await expect(gone).rejects.toMatchObject({ name: "AbortError" });
    expect(work.seen().stopped).toBe(true);
    expect(await cache.share(at(1), "k", free(), () => Promise.resolve("new"))).toBe("new");
  });
});

describe("when the ledger moves on", () => {
  it("what was kept is forgotten and what runs is stopped, with words", async () => {
    const cache = makeRevisionCache();
    const work = slow();
    const stale = cache.share(at(1), "k", free(), work.compute);
    expect(await cache.share(at(2), "k", free(), () => Promise.resolve("second"))).toBe("second");
    await expect(stale).rejects.toMatchObject({
      code: "cancelled",
      message: expect.stringMatching(/changed/) as string,
    });
    expect(work.seen().stopped).toBe(true);
  });
});
