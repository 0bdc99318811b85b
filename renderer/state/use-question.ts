/** The one way in which a part of the page asks what takes time: the answer, what is known so far, how far it is, and a stop. */
import { useEffect } from "react";
import type { Input, PageOperation } from "../../app/contract/contract.ts";
import type { Asked } from "./asked.ts";
import { useApp, useSession } from "./use-session.ts";

interface How {
  /** What the status line calls it while it runs; absent: it is too short to be listed. */
  readonly title?: string;
  /** Asked only after the hand has rested so long, ms; absent: at once. */
  readonly restMs?: number;
  /** Its answer does not hang on the ledger: a change is no reason to ask anew. */
  readonly isFixed?: boolean;
}

export type Question<N extends PageOperation> = Omit<Asked<N>, "name" | "key">;

const nothing: Question<never> = {
  value: null,
  isCurrent: false,
  partial: null,
  run: null,
  failure: null,
  again: () => undefined,
};

/**
 * `asker`: who wants to know; parts of the page that name the same asker share its one question. `input` null: nothing is
 * asked. The same input by value is asked once a state of the ledger; the service answers at once what it has computed
 * before from the same plan.
 */
export const useQuestion = <N extends PageOperation>(
  asker: string,
  name: N,
  input: Input<N> | null,
  { title, restMs = 0, isFixed = false }: How = {},
): Question<N> => {
  const { questions } = useSession();
  const revision = useApp((state) => state.ledger?.revision);
  const path = useApp((state) => state.ledger?.path);
  const text = input === null ? null : JSON.stringify(input);
  const key = text === null ? null : JSON.stringify([name, text, path, isFixed ? null : revision]);
  useEffect(() => {
    if (key === null || text === null) return undefined;
    const asked = JSON.parse(text) as Input<N>;
    return questions.hold(asker, { name, input: asked, key, title: title ?? null, restMs });
  }, [questions, asker, name, text, key, title, restMs]);
  const asked = useApp((state) => state.asked[asker]);
  if (key === null || asked === undefined || asked.name !== name) return nothing;
  const question = asked as unknown as Asked<N>;
  // Until the effect has asked anew, what is there is the answer to the question before.
  return question.key === key ? question : { ...question, isCurrent: false, failure: null };
};
