/**
 * What the page wants to know: one question an asker, asked anew when its input or the ledger changes, shared by all parts
 * of the page that name the same asker. The answer before stays, marked as old, until the new one is there.
 */
import type { Asked } from "./asked.ts";
import { flushSync } from "react-dom";
import type { Input, PageOperation } from "../../app/contract/contract.ts";
import type { AppState } from "./app-state.ts";
import { measureRedraw } from "./measures.ts";
import type { Store } from "./store.ts";
import type { Work } from "./work.ts";

export interface QuestionOf<N extends PageOperation> {
  readonly name: N;
  readonly input: Input<N>;
  /** Another text: it is asked anew. */
  readonly key: string;
  readonly title: string | null;
  /** So long nothing is asked, because the hand may not have come to rest, ms. */
  readonly restMs: number;
}

export interface Questions {
  /** Wants the answer until what comes back is called. */
  readonly hold: <N extends PageOperation>(asker: string, question: QuestionOf<N>) => () => void;
}

interface Present {
  readonly question: QuestionOf<PageOperation>;
  timer: ReturnType<typeof setTimeout> | null;
  stop: () => void;
}

export const createQuestions = (work: Work, store: Store<AppState>): Questions => {
  const holders = new Map<string, number>();
  const present = new Map<string, Present>();

  const patch = (asker: string, change: Partial<Asked>): void => {
    const { asked } = store.get();
    const before = asked[asker];
    if (before !== undefined) store.set({ asked: { ...asked, [asker]: { ...before, ...change } } });
  };

  const begin = (asker: string, mine: Present): void => {
    const { question } = mine;
    const isWanted = (): boolean => present.get(asker) === mine;
    mine.timer = null;
    const { reply, stop } = work.begin(question.name, question.input, {
      title: question.title,
      asker,
      onProgress: (progress) => {
        if (!isWanted()) return;
        const run = store.get().asked[asker]?.run;
        const { partial } = progress as { readonly partial?: never };
        patch(asker, {
          ...(run === null || run === undefined ? {} : { run: { ...run, progress } }),
          ...(partial === undefined ? {} : { partial }),
        });
      },
    });
    mine.stop = stop;
    patch(asker, { run: { startedAt: performance.now(), progress: null, stop }, failure: null });
    void reply.then((answer) => {
      mine.stop = () => undefined;
      if (!isWanted()) return;
      const change: Partial<Asked> = answer.ok
        ? { value: answer.value, isCurrent: true, partial: null, run: null, failure: null }
        : { run: null, partial: null, failure: answer.failure };
      // Rendered and drawn in one go: the figures and the pictures of one answer are never apart.
      measureRedraw(question.name, () => flushSync(() => patch(asker, change)));
    });
  };

  const leave = (asker: string): void => {
    const before = present.get(asker);
    if (before === undefined) return;
    present.delete(asker);
    if (before.timer === null) before.stop();
    else clearTimeout(before.timer);
  };

  const ask = (asker: string, question: QuestionOf<PageOperation>, isAtOnce: boolean): void => {
    leave(asker);
    const mine: Present = { question, timer: null, stop: () => undefined };
    present.set(asker, mine);
    const { asked } = store.get();
    const before = asked[asker];
    const value = before?.name === question.name ? before.value : null;
    const now: Asked = {
      name: question.name,
      key: question.key,
      value,
      isCurrent: false,
      partial: null,
      run: null,
      failure: null,
      again: () => ask(asker, question, true),
    };
    store.set({ asked: { ...asked, [asker]: now } });
    if (isAtOnce || question.restMs === 0) begin(asker, mine);
    else mine.timer = setTimeout(() => begin(asker, mine), question.restMs);
  };

  return {
    hold: (asker, question) => {
      holders.set(asker, (holders.get(asker) ?? 0) + 1);
      if (store.get().asked[asker]?.key !== question.key) ask(asker, question, false);
      let isHeld = true;
      return () => {
        if (!isHeld) return;
        isHeld = false;
        holders.set(asker, (holders.get(asker) ?? 1) - 1);
        // Whoever asks the next question of this asker has taken hold by then.
        setTimeout(() => {
          if ((holders.get(asker) ?? 0) > 0) return;
          leave(asker);
          const { [asker]: _gone, ...asked } = store.get().asked;
          store.set({ asked });
        });
      };
    },
  };
};
