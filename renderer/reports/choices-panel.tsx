/** What the report is to hold: its sections with the page on which each begins, its period, its units and its paper. */
import { sectionKinds } from "../../app/report/sections.ts";
import { useApp } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { CheckField } from "../widgets/check-field.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { CsvFields } from "../widgets/csv-fields.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { choose, chooseCsv, orderedSections, useShown, withMoved } from "./report-choices.ts";

const goTo = (sectionId: string): void =>
  document.querySelector(`.leaf-page [data-section="${sectionId}"]`)?.scrollIntoView({ block: "start" });

interface MoverProps {
  readonly title: string;
  readonly by: -1 | 1;
  readonly isAtEnd: boolean;
  readonly onMove: () => void;
}

/** Stays where it is and keeps the focus at either end, so that a section can be moved on with one key. */
const Mover = ({ title, by, isAtEnd, onMove }: MoverProps) => (
  <button
    type="button"
    className="section-mover"
    aria-disabled={isAtEnd}
    title={isAtEnd ? `It stands ${by < 0 ? "first" : "last"}` : undefined}
    onClick={isAtEnd ? undefined : onMove}
  >
    <span className="unseen">
      Move {title} {by < 0 ? "up" : "down"}
    </span>
    <svg viewBox="0 0 10 6" width="10" height="6" aria-hidden="true">
      <path d={by < 0 ? "M1 5 5 1l4 4" : "M1 1l4 4 4-4"} fill="none" stroke="currentColor" strokeWidth="1.5" />
    </svg>
  </button>
);

export const ChoicesPanel = ({ firsts }: { firsts: ReadonlyMap<string, number> }) => {
  const { choices, issueNumber } = useShown();
  const plan = useApp((state) => state.current?.plan ?? null);
  const { fromAt, untilAt, massUnit, paper, leftOut, order, csv, departureWindows, leaveBy } = choices;
  const sections = orderedSections(order);
  const move = (id: string, by: -1 | 1): void => choose({ order: withMoved(order, id, by) });
  const tick = (id: string, isIn: boolean): void =>
    choose({ leftOut: isIn ? leftOut.filter((each) => each !== id) : [...leftOut, id] });
  return (
    <>
      <FormSection rank="h2" title="Sections">
        {issueNumber !== null && (
          <p className="form-advice">For the next report; issue {issueNumber} stays as it was issued.</p>
        )}
        <ol className="section-list">
          {sections.map((id, index) => {
            const title = sectionKinds.find((kind) => kind.id === id)?.title ?? id;
            const page = firsts.get(id);
            return (
              <li key={id}>
                <CheckField isOn={!leftOut.includes(id)} onCommit={(isIn) => tick(id, isIn)}>
                  {title}
                </CheckField>
                {page !== undefined && (
                  <button type="button" className="section-page" onClick={() => goTo(id)}>
                    <span className="unseen">{title} begins on </span>p. {page}
                  </button>
                )}
                <Mover title={title} by={-1} isAtEnd={index === 0} onMove={() => move(id, -1)} />
                <Mover title={title} by={1} isAtEnd={index === sections.length - 1} onMove={() => move(id, 1)} />
              </li>
            );
          })}
        </ol>
        {order.length > 0 && (
          <Button look="link" onPress={() => choose({ order: [] })}>
            Usual order
          </Button>
        )}
      </FormSection>
      <FormSection rank="h2" title="Period and form">
        <InstantField
          label="From"
          value={fromAt}
          emptyWords="the first record"
          onClear={() => choose({ fromAt: null })}
          onCommit={(at) => choose({ fromAt: at })}
          {...(untilAt === null ? {} : { latestAt: untilAt - 1 })}
        />
        <InstantField
          label="Until"
          value={untilAt}
          emptyWords="the forecast's end"
          onClear={() => choose({ untilAt: null })}
          onCommit={(at) => choose({ untilAt: at })}
          {...(fromAt === null ? {} : { earliestAt: fromAt + 1 })}
          {...(plan === null ? {} : { latestAt: plan.horizonAt })}
        />
        <ChoiceField
          label="Masses in"
          value={massUnit}
          choices={[
            { id: "t", name: "t" },
            { id: "kg", name: "kg" },
          ]}
          onCommit={(unit) => choose({ massUnit: unit })}
        />
        <ChoiceField
          label="Paper"
          value={paper}
          choices={[
            { id: "A4", name: "A4", note: "210 by 297 mm" },
            { id: "letter", name: "letter", note: "8.5 by 11 in" },
          ]}
          onCommit={(size) => choose({ paper: size })}
        />
        <CheckField isOn={departureWindows === true} onCommit={(isIn) => choose({ departureWindows: isIn })}>
          Departure windows in the calendar
        </CheckField>
        <CheckField isOn={leaveBy === true} onCommit={(isIn) => choose({ leaveBy: isIn })}>
          Dates to leave by and what is watched in the calendar
        </CheckField>
      </FormSection>
      <FormSection rank="h2" title="Tables as CSV">
        <CsvFields value={csv} onCommit={chooseCsv} />
      </FormSection>
    </>
  );
};
