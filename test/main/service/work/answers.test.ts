/** Answers kept by what they were computed from; one computation, with its progress, for all who ask. */
import { describe, expect, it } from "vitest";
import type { Progress } from "../../../../app/work/working.ts";
import { makeAnswers } from "../../../../main/service/work/answers.ts";

const free = () => new AbortController().signal;
const silent = (): void => undefined;

/** A computation that ends when it is told to; stopped, it answers what it has. */
const slow = (whenStopped: "answers" | "fails" = "fails") => {
  const seen = { count: 0, stopped: false };
  const { promise, resolve, reject } = Promise.withResolvers<string>();
  let say: (progress: Progress) => void = silent;
  const compute = (stop: AbortSignal, tell: (progress: Progress) => void): Promise<string> => {
    seen.count += 1;
    say = tell;
    stop.addEventListener("abort", () => {
      seen.stopped = true;
      if (whenStopped === "answers") resolve("half");
      else reject(new DOMException("Stopped.", "AbortError"));
    });
    return promise;
  };
  return { compute, end: resolve, say: (progress: Progress) => say(progress), seen };
};

const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

describe("those who ask the same", () => {
  it("share one computation, and a third gets it later for nothing", async () => {
    const answers = makeAnswers();
    const work = slow();
    const two = [answers.share("k", free(), silent, work.compute), answers.share("k", free(), silent, work.compute)];
    work.end("answer");
    expect(await Promise.all(two)).toEqual(["answer", "answer"]);
    expect(await answers.share("k", free(), silent, work.compute)).toBe("answer");
    expect(work.seen.count).toBe(1);
  });

  it("hear the same progress; who comes later hears at once how far it is and what is known", async () => {
    const answers = makeAnswers();
    const work = slow();
    const first: Progress[] = [];
    const second: Progress[] = [];
    const asked = answers.share("k", free(), (progress) => first.push(progress), work.compute);
    await turn();
    work.say({ share: 0.1, words: "Counting", partial: "a tenth" });
    work.say({ share: 0.2, words: "Counting" });
    const joined = answers.share("k", free(), (progress) => second.push(progress), work.compute);
    work.say({ share: 0.5, words: "Counting", partial: "half" });
    work.end("whole");
    await Promise.all([asked, joined]);
    expect(first.map(({ share }) => share)).toEqual([0.1, 0.2, 0.5]);
    expect(second).toEqual([
      { share: 0.2, words: "Counting", partial: "a tenth" },
      { share: 0.5, words: "Counting", partial: "half" },
    ]);
  });

  it("may leave: who stays gets the answer, who left hears that it was stopped", async () => {
    const answers = makeAnswers();
    const work = slow();
    const leaving = new AbortController();
    const gone = answers.share("k", leaving.signal, silent, work.compute);
    const staying = answers.share("k", free(), silent, work.compute);
    leaving.abort();
    await expect(gone).rejects.toMatchObject({ code: "cancelled" });
    expect(work.seen.stopped).toBe(false);
    work.end("answer");
    expect(await staying).toBe("answer");
  });
});

describe("when the last has left", () => {
  it("is stopped, and the next begins anew", async () => {
    const answers = makeAnswers();
    const work = slow();
    const leaving = new AbortController();
    const gone = answers.share("k", leaving.signal, silent, work.compute);
    await turn();
    leaving.abort();
    await expect(gone).rejects.toMatchObject({ name: "AbortError" });
    expect(work.seen.stopped).toBe(true);
    expect(await answers.share("k", free(), silent, () => Promise.resolve("new"))).toBe("new");
  });

  it("the answer so far is given where there is one, and is not kept for the next", async () => {
    const answers = makeAnswers();
    const work = slow("answers");
    const leaving = new AbortController();
    const stopped = answers.share("k", leaving.signal, silent, work.compute);
    await turn();
    leaving.abort();
    expect(await stopped).toBe("half");
    expect(await answers.share("k", free(), silent, () => Promise.resolve("whole"))).toBe("whole");
  });
});

describe("what is kept", () => {
  it("is kept by key alone, whatever was asked between", async () => {
    const answers = makeAnswers();
    const say = (word: string) => () => Promise.resolve(word);
    expect(await answers.share("before", free(), silent, say("a"))).toBe("a");
    expect(await answers.share("after", free(), silent, say("b"))).toBe("b");
    expect(await answers.share("before", free(), silent, say("c"))).toBe("a");
  });

  it("is no failure", async () => {
    const answers = makeAnswers();
    await expect(answers.share("k", free(), silent, () => Promise.reject(new Error("once")))).rejects.toThrow("once");
    expect(await answers.share("k", free(), silent, () => Promise.resolve("then"))).toBe("then");
  });

  it("is not without end: what was asked for longest ago goes first", async () => {
    const answers = makeAnswers();
    const count = { computed: 0 };
    const compute = () => Promise.resolve((count.computed += 1));
    await answers.share("first", free(), silent, compute);
    for (let other = 0; other < 200; other += 1) {
      // eslint-disable-next-line no-await-in-loop -- one after the other is what this is about
      await answers.share(`other ${other}`, free(), silent, compute);
      // eslint-disable-next-line no-await-in-loop
      if (other === 40) await answers.share("second", free(), silent, compute);
    }
    const before = count.computed;
    await answers.share("other 199", free(), silent, compute);
    expect(count.computed).toBe(before);
    await answers.share("first", free(), silent, compute);
    expect(count.computed).toBe(before + 1);
  });
});
