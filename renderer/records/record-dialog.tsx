/** The frame of every record: what is entered, what it will post, and the button that writes it. */
import { type ReactNode, useRef, useState } from "react";
import type { Input } from "../../app/contract/contract.ts";
import type { RecordName } from "../../app/records/record-input.ts";
import type { Wrong } from "../../app/records/record-correct.ts";
import type { Failure } from "../../app/ground/failure.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { entryTitle } from "../names/account-words.ts";
import { PostingList } from "../entries/posting-list.tsx";
import { useSession } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { CorrectionPreview } from "./correction-preview.tsx";
import { usePreview } from "./use-preview.ts";
import { firstOf } from "../widgets/unable.ts";
import "./records.css";

interface RecordDialogProps<N extends RecordName> {
  readonly title: string;
  readonly confirm: string;
  readonly record: N;
  /** null: not complete. */
  readonly input: Input<N> | null;
  readonly plan: PlanSnapshot;
  readonly isDanger?: boolean;
  /** What it is recorded in place of, and why; both in one step. Absent: nothing. */
  readonly wrong?: { readonly what: Wrong; readonly reason: string };
  readonly onClose: () => void;
  /** Once it has been written, in place of `onClose`. */
  readonly onWritten?: () => void;
  /** The fields; told what is wrong with a path of the input ("taken.0"), to show it there. */
  readonly children: (faultOf: (field: string) => string | null) => ReactNode;
  /** Fields that show their own fault. */
  readonly fields: readonly string[];
}

export const RecordDialog = <N extends RecordName>(props: RecordDialogProps<N>) => {
  const { record, input, plan, fields } = props;
  const session = useSession();
  const { preview, failure: seen } = usePreview(record, input, props.wrong?.what);
  // A form that puts a record right begins with what was recorded.
  const [recorded] = useState(() => JSON.stringify(input));
  const correctedId = props.wrong?.what.kind === "entry" ? props.wrong.what.id : null;
  const [refusal, setRefusal] = useState<Failure | null>(null);
  const failure = seen ?? refusal;
  const isWritten = useRef(false);
  const faultOf = (field: string): string | null => {
    const path = failure?.field ?? null;
    return path === field || path?.startsWith(`${field}.`) === true ? (failure?.message ?? null) : null;
  };
  const isPlaced = fields.some((field) => faultOf(field) !== null);
  const write = async (): Promise<boolean> => {
    if (input === null) return false;
    const { wrong } = props;
    const reply =
      wrong === undefined
        ? await session.command(record, input as never)
        : await session.command("record.correct", { wrong: wrong.what, reason: wrong.reason, record, input });
    setRefusal(reply.ok ? null : reply.failure);
    isWritten.current = reply.ok;
    return reply.ok;
  };
  return (
    <Dialog
      title={props.title}
      width="wide"
      confirm={props.confirm}
      unable={firstOf(
        [
          correctedId !== null && JSON.stringify(input) === recorded,
          "It stands so in the journal: nothing is changed yet.",
        ],
        [props.wrong?.reason.trim() === "", "Say why: the reason stands in the journal."],
        [input === null, "Something is missing in the fields above."],
        [seen !== null, "It cannot be recorded so; the preview says why."],
      )}
      isDanger={props.isDanger ?? false}
      onConfirm={write}
      onClose={() => {
        if (isWritten.current && props.onWritten !== undefined) props.onWritten();
        else props.onClose();
      }}
      fault={failure === null || isPlaced ? null : failure.message}
    >
      <div className="record-halves">
        <div>{props.children(faultOf)}</div>
        <div className="record-preview" aria-live="polite">
          <FormSection title="Will be written">
            {preview === null && (
              <p className="form-advice">{seen === null ? "Fill in what happened." : "Nothing, as it stands."}</p>
            )}
            {preview !== null && correctedId !== null && (
              <CorrectionPreview preview={preview} wrongId={correctedId} plan={plan} />
            )}
            {correctedId === null && preview?.entries.length === 0 && (
              <p className="form-advice">No effect on the books.</p>
            )}
            {correctedId === null &&
              preview?.entries.map((entry) => (
                <div key={entry.id}>
                  <p className="record-entry">{entryTitle(plan, entry)}</p>
                  <PostingList postings={entry.postings} plan={plan} />
                </div>
              ))}
            {props.wrong !== undefined && correctedId === null && (
              <p className="form-advice">The wrong one is reversed in the same step; both stay in the journal.</p>
            )}
            {props.wrong === undefined && preview !== null && preview.reversedEntryIds.length > 0 && (
              <p className="form-advice">
                It comes before levels already stated; what was booked between is reversed and booked anew.
              </p>
            )}
          </FormSection>
        </div>
      </div>
    </Dialog>
  );
};
