/** Another site's records: choose its ledger, decide the conflicts one by one, see what will be written, bring it in. */
import { useState } from "react";
import { foundSentence } from "../../app/merge/outcome-words.ts";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { Button } from "../widgets/button.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { RunLine } from "../widgets/run-line.tsx";
import { ConflictPanel } from "./conflict-panel.tsx";
import { MergeSummary } from "./merge-summary.tsx";
import { useMerge } from "./use-merge.ts";
import "./merge.css";

export const MergeDialog = ({ request, close }: DialogProps) => {
  const merge = useMerge(request.file ?? null);
  const [index, setIndex] = useState(0);
  const { view, file, choices } = merge;
  const conflicts = view?.conflicts ?? [];
  const openCount = conflicts.filter(({ id }) => !choices.has(id)).length;
  const conflict = conflicts[index];
  const isSummary = view !== null && conflict === undefined;
  const canTake =
    isSummary && openCount === 0 && !merge.isReading && view.outcome.blocked.length === 0 && !view.outcome.isNothing;
  return (
    <Dialog
      title="Merge another ledger’s records"
      width="wide"
      confirm="Bring the records in"
      unable={canTake ? null : "The other ledger is not read, or a conflict is not decided."}
      onConfirm={merge.take}
      onClose={close}
      fault={merge.fault}
    >
      <div className="merge-choose">
        <p className="form-advice">
          {file === null
            ? "Where two sites each keep a copy of one ledger, this brings the other site’s records in: journal entries, gauge readings, what became of flights and sorties. Their file is only read."
            : `${file.name}${view === null ? "" : `, programme ${view.programme}. ${foundSentence(view)}`}`}
        </p>
        <Button
          look={file === null ? "primary" : "plain"}
          onPress={() => {
            setIndex(0);
            void merge.pick();
          }}
        >
          {file === null ? "Choose their ledger…" : "Choose another…"}
        </Button>
      </div>
      {file !== null && merge.run !== null && <RunLine run={merge.run} words={`Comparing with ${file.name}`} />}
      {conflict !== undefined && (
        <ConflictPanel
          key={conflict.id}
          conflict={conflict}
          index={index}
          count={conflicts.length}
          openCount={openCount}
          choice={choices.get(conflict.id) ?? null}
          onChoose={(choice) => merge.decide(conflict.id, choice)}
          onStep={(by) => setIndex(index + by)}
          onKeepRest={() => {
            merge.decideAll("keep ours");
            setIndex(conflicts.length);
          }}
        />
      )}
      {isSummary && (
        <>
          {conflicts.length > 0 && (
            <p className="form-advice">
              {openCount === 0
                ? "Every conflict is decided."
                : `${openCount} of ${conflicts.length} conflicts are not decided yet.`}{" "}
              <Button
                look="link"
                onPress={() =>
                  setIndex(
                    Math.max(
                      0,
                      conflicts.findIndex(({ id }) => openCount === 0 || !choices.has(id)),
                    ),
                  )
                }
              >
                Back to the conflicts
              </Button>
            </p>
          )}
          <MergeSummary view={view} takeCases={merge.takeCases} onChooseCase={merge.chooseCase} />
        </>
      )}
    </Dialog>
  );
};
