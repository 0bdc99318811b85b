/** The page's questions: shared, asked anew, marked as old, stopped. */
import { beforeEach, describe, expect, it } from "vitest";
import type { Bridge, BridgeEvents } from "../../../app/contract/bridge.ts";
import type { Reply } from "../../../app/ground/failure.ts";
import { createClient } from "../../../renderer/state/client.ts";
import { type AppState, initialState } from "../../../renderer/state/app-state.ts";
import { createQuestions, type QuestionOf } from "../../../renderer/state/questions.ts";
import { createStore, type Store } from "../../../renderer/state/store.ts";
import { createWork } from "../../../renderer/state/work.ts";
import { fakeBridge } from "./fake-bridge.ts";

interface Call {
  readonly name: string;
  readonly jobId: string;
  readonly answer: (reply: Reply<unknown>) => void;
}

let store: Store<AppState>;
let calls: Call[];
let cancelled: string[];
let tell: (payload: BridgeEvents["progress"]) => void;
let questions: ReturnType<typeof createQuestions>;

beforeEach(() => {
  calls = [];
  cancelled = [];
  const bridge: Bridge = {
    ...fakeBridge().bridge,
    call: ((name: string, input: { jobId?: string }, jobId = "") => {
      if (name === "job.cancel") {
        cancelled.push(input.jobId ?? "");
        return Promise.resolve({ ok: true, value: { wasRunning: true } });
      }
      const { promise, resolve } = Promise.withResolvers<Reply<unknown>>();
      calls.push({ name, jobId, answer: resolve });
      return promise;
    }) as Bridge["call"],
    on: ((_event: string, listener: typeof tell) => {
      tell = listener;
      return () => undefined;
    }) as Bridge["on"],
  };
  store = createStore<AppState>(initialState);
  questions = createQuestions(createWork(createClient(bridge), store), store);
});

const question = (key: string, restMs = 0): QuestionOf<"supply.check"> => ({
  name: "supply.check",
  input: { planCaseId: "a" },
  key,
  title: "Checking the supply",
  restMs,
});
const asked = () => store.get().asked["supply"];
const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));
const ok = (value: string): Reply<unknown> => ({ ok: true, value });

describe("a question", () => {
  it("is asked once for all who share it, listed while it runs, and answered", async () => {
    questions.hold("supply", question("1"));
    questions.hold("supply", question("1"));
    expect(calls).toHaveLength(1);
    expect(store.get().work.map(({ title }) => title)).toEqual(["Checking the supply"]);
    expect(asked()).toMatchObject({ isCurrent: false, value: null });
    calls[0]!.answer(ok("first"));
    await turn();
    expect(asked()).toMatchObject({ isCurrent: true, value: "first", run: null });
    expect(store.get().work).toEqual([]);
  });

  it("shows what is known so far, and how far it is", async () => {
    questions.hold("supply", question("1"));
    const { jobId } = calls[0]!;
    tell({ jobId, share: 0.5, words: "Checking", partial: "half" });
    tell({ jobId: "another", share: 0.9, words: "Other", partial: "not ours" });
    expect(asked()).toMatchObject({ partial: "half", run: { progress: { share: 0.5 } } });
    calls[0]!.answer(ok("whole"));
    await turn();
    expect(asked()).toMatchObject({ partial: null, value: "whole" });
  });

  it("asked anew stops the older one, keeps its answer as old, and drops what comes too late", async () => {
    const leave = questions.hold("supply", question("1"));
    calls[0]!.answer(ok("first"));
    await turn();
    questions.hold("supply", question("2"));
    leave();
    expect(asked()).toMatchObject({ isCurrent: false, value: "first" });
    questions.hold("supply", question("3"));
    expect(cancelled).toEqual([calls[1]!.jobId]);
    calls[1]!.answer(ok("second, too late"));
    calls[2]!.answer(ok("third"));
    await turn();
    expect(asked()).toMatchObject({ isCurrent: true, value: "third" });
  });

  it("waits until the hand has rested: of many changes the last is asked", async () => {
    for (const key of ["1", "2", "3"]) questions.hold("supply", question(key, 3));
    expect(calls).toHaveLength(0);
    await turn();
    expect(calls).toHaveLength(1);
  });

  it("says why there is no answer, and is asked again when the person wants it", async () => {
    questions.hold("supply", question("1"));
    calls[0]!.answer({ ok: false, failure: { code: "cancelled", message: "Stopped.", field: null } });
    await turn();
    expect(asked()).toMatchObject({ failure: { message: "Stopped." }, run: null });
    asked()!.again();
    calls[1]!.answer(ok("then"));
    await turn();
    expect(asked()).toMatchObject({ failure: null, value: "then", isCurrent: true });
  });

  it("is stopped and forgotten when nobody wants it any more", async () => {
    const leave = questions.hold("supply", question("1"));
    leave();
    await turn();
    expect(cancelled).toEqual([calls[0]!.jobId]);
    expect(asked()).toBeUndefined();
  });
});
