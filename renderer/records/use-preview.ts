/** What a record would post, asked of the service while it is being filled in. */
import { useEffect, useState } from "react";
import type { Input, RecordName } from "../../app/contract/contract.ts";
import type { Failure } from "../../app/contract/failure.ts";
import type { RecordPreview } from "../../app/contract/ledger-view.ts";
import { useSession } from "../state/use-session.ts";

export interface PreviewState {
  readonly preview: RecordPreview | null;
  readonly failure: Failure | null;
}

const nothing: PreviewState = { preview: null, failure: null };
/** After the last key. */
const REST_MS = 150;

/** `input` null: not complete enough to ask. */
export const usePreview = <N extends RecordName>(record: N, input: Input<N> | null): PreviewState => {
  const session = useSession();
  const [state, setState] = useState(nothing);
  const asked = input === null ? null : JSON.stringify(input);
  useEffect(() => {
    if (asked === null) return;
    let isWanted = true;
    const timer = setTimeout(() => {
      void session.client.call("record.preview", { record, input: JSON.parse(asked) as unknown }).then((reply) => {
        if (!isWanted) return;
        setState(reply.ok ? { preview: reply.value, failure: null } : { preview: null, failure: reply.failure });
      });
    }, REST_MS);
    return () => {
      isWanted = false;
      clearTimeout(timer);
    };
  }, [session, record, asked]);
  return asked === null ? nothing : state;
};
