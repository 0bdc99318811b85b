/** What a record would post, asked of the service while it is being filled in. */
import type { Input } from "../../app/contract/contract.ts";
import type { RecordName } from "../../app/records/record-input.ts";
import type { Wrong } from "../../app/records/record-correct.ts";
import type { Failure } from "../../app/ground/failure.ts";
import type { RecordPreview } from "../../app/ledger/ledger-view.ts";
import { useQuestion } from "../state/use-question.ts";

interface PreviewState {
  readonly preview: RecordPreview | null;
  readonly failure: Failure | null;
}

/** After the last key. */
const REST_MS = 150;

/** `input` null: not complete enough to ask. The preview before stays until the next one is there. */
export const usePreview = <N extends RecordName>(record: N, input: Input<N> | null, wrong?: Wrong): PreviewState => {
  const asked = useQuestion(
    "record",
    "record.preview",
    input === null ? null : { record, input, ...(wrong === undefined ? {} : { wrong }) },
    { restMs: REST_MS },
  );
  return { preview: asked.failure === null ? asked.value : null, failure: asked.failure };
};
