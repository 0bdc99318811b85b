/** What the report is to hold: its sections with the page on which each begins, its period, its units and its paper. */
import { sectionKinds } from "../../app/report/sections.ts";
import { useApp } from "../state/use-session.ts";
import { CheckField } from "../widgets/check-field.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { choose, useDesk } from "./report-choices.ts";

const goTo = (sectionId: string): void =>
  document.querySelector(`.leaf-page [data-section="${sectionId}"]`)?.scrollIntoView({ block: "start" });

export const ChoicesColumn = ({ firsts }: { firsts: ReadonlyMap<string, number> }) => {
  const { choices, issueNumber } = useDesk();
  const plan = useApp((state) => state.current?.plan ?? null);
  const { fromAt, untilAt, massUnit, paper, leftOut, departureWindows, leaveBy } = choices;
  const tick = (id: string, isIn: boolean): void =>
    choose({ leftOut: isIn ? leftOut.filter((each) => each !== id) : [...leftOut, id] });
  return (
    <>
      <FormSection title="Sections">
        {issueNumber !== null && (
          <p className="form-advice">For the next report; issue {issueNumber} stays as it was issued.</p>
        )}
        <ol className="section-list">
          {sectionKinds.map(({ id, title }) => {
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
              </li>
            );
          })}
        </ol>
      </FormSection>
      <FormSection title="Period and form">
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
    </>
  );
};
