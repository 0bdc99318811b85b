/** What is asked of a study: its inputs, how its points lie, and what is asked at each of them. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { type InputOffer, inputId } from "../../app/study/offers.ts";
import { MAX_INPUTS, type OutcomeAsked, type StudyAsked } from "../../app/study/question.ts";
import { Button } from "../widgets/button.tsx";
import { CheckField } from "../widgets/check-field.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { InputPart } from "./input-part.tsx";

interface QuestionPartProps {
  readonly plan: PlanSnapshot;
  readonly offers: readonly InputOffer[];
  readonly asked: StudyAsked;
  readonly onChange: (asked: StudyAsked) => void;
}

const designs = [
  { id: "grid", name: "on a grid", note: "every value with every other" },
  { id: "sobol", name: "filling the space", note: "so many points, spread evenly" },
] as const;

const titles = ["First input", "Second input", "Third input", "Fourth input"] as const;

const USUAL_POINTS = 256;
const MAX_POINTS = 1_000_000;
const MAX_RUNS = 1_000_000;
const USUAL_RUNS = 1024;

const outcomes = {
  supply: "how the sorties are supplied, and by what margin",
  verdict: "the verdict, with ports, hulls and engines",
  risk: "how likely it is that all fly when planned",
  resupply: "the fewest flights, and what they cost",
} as const satisfies Record<OutcomeAsked["kind"], string>;

const kinds = Object.keys(outcomes) as OutcomeAsked["kind"][];

const fresh = (kind: OutcomeAsked["kind"]): OutcomeAsked => {
  if (kind === "supply") return { kind, each: false };
  return kind === "risk" ? { kind, seed: 1, runs: USUAL_RUNS } : { kind };
};

export const QuestionPart = ({ plan, offers, asked, onChange }: QuestionPartProps) => {
  const { inputs, design, ask } = asked;
  const taken = new Set(inputs.map(inputId));
  const free = offers.filter(({ id }) => !taken.has(id));
  const risk = ask.find((one) => one.kind === "risk");
  const supply = ask.find((one) => one.kind === "supply");
  const isRiskNeeded = offers.some(({ id, isForRisk }) => isForRisk && taken.has(id));
  /** What only the risk takes notice of is asked of the risk. */
  const withInputs = (next: StudyAsked["inputs"]): void => {
    const ids = new Set(next.map(inputId));
    const needsRisk = offers.some(({ id, isForRisk }) => isForRisk && ids.has(id));
    onChange({ ...asked, inputs: next, ask: needsRisk && risk === undefined ? [...ask, fresh("risk")] : ask });
  };
  const setOutcome = (kind: OutcomeAsked["kind"], isOn: boolean): void => {
    const next = kinds.flatMap((one): readonly OutcomeAsked[] => {
      const before = ask.find((row) => row.kind === one);
      if (one !== kind) return before === undefined ? [] : [before];
      return isOn ? [before ?? fresh(kind)] : [];
    });
    if (next.length > 0) onChange({ ...asked, ask: next });
  };
  return (
    <div className="study-question">
      {inputs.map((input, place) => (
        <InputPart
          // eslint-disable-next-line react/no-array-index-key -- the place is what it is
          key={place}
          title={titles[place] ?? "Input"}
          input={input}
          offers={offers.filter(({ id }) => !taken.has(id) || id === inputId(input))}
          isGrid={design.kind === "grid"}
          asOfAt={plan.asOfAt}
          horizonAt={plan.horizonAt}
          onChange={(next) => withInputs(inputs.map((row, n) => (n === place ? next : row)))}
          {...(inputs.length > 1 ? { onRemove: () => withInputs(inputs.filter((_, n) => n !== place)) } : {})}
        />
      ))}
      <section className="study-input" aria-label="Points">
        <h2>Points</h2>
        <ChoiceField
          label="They lie"
          value={design.kind === "sobol" ? "sobol" : "grid"}
          choices={designs}
          onCommit={(kind) =>
            onChange({ ...asked, design: kind === "grid" ? { kind } : { kind, points: USUAL_POINTS } })
          }
        />
        {design.kind === "sobol" && (
          <NumberField
            label="Number of points"
            unit=""
            isWhole
            min={1}
            max={MAX_POINTS}
            value={design.points}
            onCommit={(points) => onChange({ ...asked, design: { kind: "sobol", points } })}
          />
        )}
        <h2 className="study-next">Asked at each point</h2>
        {kinds.map((kind) => (
          <CheckField
            key={kind}
            isOn={ask.some((one) => one.kind === kind)}
            onCommit={(isOn) => setOutcome(kind, isOn || (kind === "risk" && isRiskNeeded))}
          >
            {outcomes[kind]}
          </CheckField>
        ))}
        {supply !== undefined && (
          <CheckField
            isOn={supply.each}
            onCommit={(each) =>
              onChange({ ...asked, ask: ask.map((one) => (one.kind === "supply" ? { ...one, each } : one)) })
            }
          >
            and sortie by sortie
          </CheckField>
        )}
        {risk !== undefined && (
          <NumberField
            label="Runs at each point"
            unit="runs"
            isWhole
            min={64}
            max={MAX_RUNS}
            value={risk.runs}
            onCommit={(runs) =>
              onChange({ ...asked, ask: ask.map((one) => (one.kind === "risk" ? { ...one, runs } : one)) })
            }
          />
        )}
        <p className="study-add">
          <Button
            unable={
              inputs.length >= MAX_INPUTS
                ? "A study varies four inputs at most."
                : free.length === 0
                  ? "There is nothing else in this plan case that could be varied."
                  : null
            }
            onPress={() => withInputs([...inputs, ...free.slice(0, 1).map(({ input }) => input)])}
          >
            Vary another input
          </Button>
        </p>
      </section>
    </div>
  );
};
