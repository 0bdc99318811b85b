/** What is asked of the resupply search: what must hold, when flights may arrive, what to minimise, and limits on the whole. */
import type { ReactNode } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { ResupplyAsked } from "../../app/resupply/asked.ts";
import { CheckField } from "../widgets/check-field.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { Blackouts } from "./blackouts.tsx";
import { Margins } from "./margins.tsx";
import { costUnitOf } from "../names/cost-unit.ts";

interface QuestionPartProps {
  readonly plan: PlanSnapshot;
  readonly asked: ResupplyAsked;
  readonly onChange: (change: Partial<ResupplyAsked>) => void;
}

const MAX_FLIGHTS = 5000;
const MAX_BUDGET = 1e15;
const MAX_MOVE_DAYS = 60;
const MAX_COST = 1e12;
const USUAL_DAYS_BETWEEN = 5;
const USUAL_DAYS = 7;
const LEAST_PERCENT = 1;
const MAX_PERCENT = 99.9;

const goals = [
  { id: "supplied", name: "supplied", note: "the reserve is kept" },
  { id: "flies", name: "fuelled", note: "using the reserve where need be" },
] as const;

const losses = [
  { id: "0", name: "none of the flights lost", note: "every flight arrives" },
  { id: "1", name: "any one flight lost", note: "whichever it is" },
  { id: "2", name: "any two flights lost", note: "takes long with many flights" },
] as const;

const measures = [
  { id: "flights", name: "flights", note: "as few as hold" },
  { id: "cost", name: "cost", note: "by the cost of a flight of each class" },
  { id: "loss", name: "losses", note: "of as few flights as hold, what is boiled off and vented" },
] as const;

const Group = ({ title, children }: { title: string; children: ReactNode }) => (
  <section className="resupply-group" aria-label={title}>
    <h2>{title}</h2>
    {children}
  </section>
);

export const QuestionPart = ({ plan, asked, onChange }: QuestionPartProps) => {
  const { arrivals, betweenDepots: between } = asked;
  const costUnit = costUnitOf(plan);
  return (
    <div className="resupply-question">
      <Group title="What must hold">
        <ChoiceField
          label="Every sortie is"
          value={asked.goal}
          choices={goals}
          onCommit={(goal) => onChange(goal === "flies" ? { goal, margins: [] } : { goal })}
        />
        <InstantField
          label="Loading until"
          value={asked.untilAt}
          emptyWords="the end of the plan"
          earliestAt={plan.asOfAt}
          latestAt={plan.horizonAt}
          onCommit={(untilAt) => onChange({ untilAt })}
          onClear={() => onChange({ untilAt: null })}
        />
        <NumberField
          label="Sorties may move, by up to"
          unit={asked.moveSortiesDays === 0 ? "" : "days"}
          isWhole
          min={1}
          max={MAX_MOVE_DAYS}
          value={asked.moveSortiesDays === 0 ? null : asked.moveSortiesDays}
          placeholder="not at all"
          onCommit={(moveSortiesDays) => onChange({ moveSortiesDays })}
          onClear={() => onChange({ moveSortiesDays: 0 })}
        />
        <ChoiceField
          label="With"
          value={String(asked.lost) as "0" | "1" | "2"}
          choices={losses}
          onCommit={(lost) => onChange({ lost: Number(lost) as ResupplyAsked["lost"] })}
        />
        <NumberField
          label="All fly when planned, at least"
          unit={asked.chance === null ? "" : "%"}
          min={LEAST_PERCENT}
          max={MAX_PERCENT}
          value={asked.chance === null ? null : Math.round(asked.chance * 1000) / 10}
          placeholder="not asked"
          onCommit={(percent) => onChange({ chance: percent / 100 })}
          onClear={() => onChange({ chance: null })}
        />
        {asked.goal === "supplied" && (
          <Margins plan={plan} margins={asked.margins} onChange={(margins) => onChange({ margins })} />
        )}
      </Group>
      <Group title="When flights arrive">
        <ChoiceField
          label="Arrivals"
          value={arrivals.kind === "every" ? "every" : "windows"}
          choices={[
            { id: "windows", name: "at the depot’s windows", note: "every week where it has none" },
            { id: "every", name: "at a fixed interval", note: "counted from the as-of instant" },
          ]}
          onCommit={(kind) =>
            onChange({ arrivals: kind === "windows" ? { kind } : { kind: "every", days: USUAL_DAYS } })
          }
        />
        {arrivals.kind === "every" && (
          <NumberField
            label="Interval"
            unit="days"
            min={0.25}
            max={1000}
            value={arrivals.days}
            onCommit={(days) => onChange({ arrivals: { kind: "every", days } })}
          />
        )}
        <CheckField isOn={asked.isBeforeLoadings} onCommit={(isBeforeLoadings) => onChange({ isBeforeLoadings })}>
          and just before each loading
        </CheckField>
        {plan.depots.length > 1 && (
          <CheckField
            isOn={between !== null}
            onCommit={(isOn) =>
              onChange({ betweenDepots: isOn ? { tripDays: USUAL_DAYS_BETWEEN, costPerFlight: null } : null })
            }
          >
            tankers may also fly from one depot to another
          </CheckField>
        )}
        {plan.depots.length > 1 && between !== null && (
          <>
            <NumberField
              label="Transit between depots"
              unit="days"
              min={0.01}
              max={1000}
              value={between.tripDays}
              onCommit={(tripDays) => onChange({ betweenDepots: { ...between, tripDays } })}
            />
            <NumberField
              label="Cost of such a flight"
              unit={between.costPerFlight === null ? "" : costUnit}
              min={0}
              max={MAX_COST}
              value={between.costPerFlight}
              placeholder="as of its class"
              onCommit={(costPerFlight) => onChange({ betweenDepots: { ...between, costPerFlight } })}
              onClear={() => onChange({ betweenDepots: { ...between, costPerFlight: null } })}
            />
          </>
        )}
        <Blackouts plan={plan} blackouts={asked.blackouts} onChange={(blackouts) => onChange({ blackouts })} />
      </Group>
      <Group title="What to minimise">
        <ChoiceField
          label="As little as can be"
          value={asked.least}
          choices={measures}
          onCommit={(least) => onChange({ least })}
        />
        <NumberField
          label={asked.mayReplace ? "Flights chosen, at most" : "Further flights, at most"}
          unit={asked.mostFlights === null ? "" : "flights"}
          isWhole
          min={0}
          max={MAX_FLIGHTS}
          value={asked.mostFlights}
          placeholder="no limit"
          onCommit={(mostFlights) => onChange({ mostFlights })}
          onClear={() => onChange({ mostFlights: null })}
        />
        <NumberField
          label={asked.mayReplace ? "Budget for those chosen" : "Budget for further flights"}
          unit={asked.budget === null ? "" : costUnit}
          min={0}
          max={MAX_BUDGET}
          value={asked.budget}
          placeholder="no limit"
          onCommit={(budget) => onChange({ budget })}
          onClear={() => onChange({ budget: null })}
        />
        <CheckField isOn={asked.mayReplace} onCommit={(mayReplace) => onChange({ mayReplace })}>
          planned flights may be left out; firm ones stay
        </CheckField>
      </Group>
    </div>
  );
};
