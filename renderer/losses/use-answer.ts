/** An answer of the service, fetched anew with every question and every revision; a failure is kept, not told as a notice. */
import { useEffect, useState } from "react";
import { flushSync } from "react-dom";
import type { Input, Output, PageOperation } from "../../app/contract/contract.ts";
import { measureRedraw } from "./measures.ts";
import { useApp, useSession } from "../state/use-session.ts";

export interface Answered<T> {
  /** The newest there is; it stays until the next one comes. */
  readonly value: T | null;
  /** Why there is none for the present question, in words; null: there is one, or it is on its way. */
  readonly failure: string | null;
}

/** `input` null: nothing is asked. The same question by value is asked once a revision. */
export const useAnswer = <N extends PageOperation>(name: N, input: Input<N> | null): Answered<Output<N>> => {
  const session = useSession();
  const revision = useApp((state) => state.ledger?.revision);
  const key = input === null ? null : JSON.stringify(input);
  const [answer, setAnswer] = useState<Answered<Output<N>>>({ value: null, failure: null });
  useEffect(() => {
    if (key === null) return undefined;
    let isWanted = true;
    void session.client.call(name, JSON.parse(key) as Input<N>).then((reply) => {
      if (!isWanted) return;
      // Rendered and drawn in one go: the figures and the pictures of one answer are never apart.
      measureRedraw(name, () =>
        flushSync(() =>
          setAnswer(({ value }) =>
            reply.ok ? { value: reply.value, failure: null } : { value, failure: reply.failure.message },
          ),
        ),
      );
    });
    return () => {
      isWanted = false;
    };
    // eslint-disable-next-line react/exhaustive-effect-dependencies -- each revision is fetched anew
  }, [session, name, key, revision]);
  return input === null ? { value: null, failure: null } : answer;
};
