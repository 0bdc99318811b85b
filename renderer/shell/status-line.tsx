/** The line below: ledger file, as-of date, plan case, undo and redo, how long the last forecast took, why read-only. */
import { useActions, useActionStates } from "../actions/use-actions.ts";
import { formatInstant, formatWithWeekday } from "../format/instant.ts";
import { formatNumber, withUnit } from "../format/number.ts";
import { massUnits } from "../format/mass.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { TourOffer } from "../handbook/tour.tsx";
import { WorkList } from "./work-list.tsx";

export const StatusLine = () => {
  const ledger = useApp((state) => state.ledger);
  const current = useApp((state) => state.current);
  const work = useApp((state) => state.work);
  return (
    <footer className="status-line">
      {/* At the very edge: what comes and goes in the line does not move it from under the pointer. */}
      <TourOffer />
      {ledger === null ? (
        <span>No ledger is open</span>
      ) : (
        <>
          <span className="status-file" title={ledger.path}>
            {ledger.fileName}
          </span>
          {ledger.isDemonstration && <span title="Entirely fictitious">demonstration</span>}
          <span title={formatWithWeekday(ledger.asOfAt)}>
            as of {formatInstant(ledger.asOfAt)}
            {ledger.isAsOfPinned ? ", pinned" : ""}
          </span>
          {current !== null && <span className="status-case">{current.plan.planCase.name}</span>}
          {ledger.readOnlyBecause !== null && (
            <span className="status-read-only" title={ledger.readOnlyBecause}>
              read-only: {ledger.readOnlyBecause}
            </span>
          )}
        </>
      )}
      <span className="status-gap" />
      {work.length > 0 && <WorkList work={work} />}
      {ledger !== null && (
        <>
          <UndoRedo />
          <UnitChoice />
        </>
      )}
      {current !== null && (
        <span className="figures" title="How long the last forecast with its statuses took">
          forecast {withUnit(formatNumber(current.tookMs, current.tookMs < 10 ? 1 : 0), "ms")}
        </span>
      )}
    </footer>
  );
};

const UndoRedo = () => {
  const actions = useActions();
  const states = useActionStates();
  const named = (id: "edit.undo" | "edit.redo", word: string) => {
    const state = states.find((candidate) => candidate.id === id);
    const isEnabled = state?.isEnabled ?? false;
    return (
      <button
        type="button"
        className="status-button status-undo"
        aria-disabled={!isEnabled || undefined}
        title={actions.reasonOf(id) ?? undefined}
        onClick={() => actions.run(id)}
      >
        {isEnabled ? (state?.label ?? word) : word}
      </button>
    );
  };
  return (
    <>
      {named("edit.undo", "Undo")}
      {named("edit.redo", "Redo")}
    </>
  );
};

const unitWords = { auto: "masses in kg or t", t: "masses in t", kg: "masses in kg" } as const;

const UnitChoice = () => {
  const session = useSession();
  const unit = useApp((state) => state.massUnit);
  const next = massUnits[(massUnits.indexOf(unit) + 1) % massUnits.length] ?? "auto";
  return (
    <button
      type="button"
      className="status-button status-unit"
      title={`Then: ${unitWords[next]}`}
      onClick={() => session.chooseUnit(next)}
    >
      {unitWords[unit]}
    </button>
  );
};
