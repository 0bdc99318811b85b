/** Stretches of time in which no flight arrives. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { ResupplyAsked } from "../../app/resupply/asked.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import { Button } from "../widgets/button.tsx";
import { InstantField } from "../widgets/instant-field.tsx";

interface BlackoutsProps {
  readonly plan: PlanSnapshot;
  readonly blackouts: ResupplyAsked["blackouts"];
  readonly onChange: (blackouts: ResupplyAsked["blackouts"]) => void;
}

const USUAL_DAYS = 14;
const MOST = 200;

export const Blackouts = ({ plan, blackouts, onChange }: BlackoutsProps) => {
  const put = (index: number, change: Partial<ResupplyAsked["blackouts"][number]>): void =>
    onChange(blackouts.map((row, n) => (n === index ? { ...row, ...change } : row)));
  return (
    <>
      {blackouts.map(({ fromAt, untilAt }, index) => (
        // eslint-disable-next-line react/no-array-index-key -- the rows have no other name
        <div key={index} className="resupply-blackout">
          <InstantField
            label="No arrivals from"
            value={fromAt}
            latestAt={untilAt}
            onCommit={(at) => put(index, { fromAt: at })}
          />
          <InstantField
            label="until"
            value={untilAt}
            earliestAt={fromAt}
            onCommit={(at) => put(index, { untilAt: at })}
          />
          <Button look="link" onPress={() => onChange(blackouts.filter((_, n) => n !== index))}>
            Remove
          </Button>
        </div>
      ))}
      <p className="resupply-more">
        <Button
          look="link"
          unable={blackouts.length >= MOST ? `There are ${MOST} already, which is the most.` : null}
          onPress={() => onChange([...blackouts, { fromAt: plan.asOfAt, untilAt: plan.asOfAt + USUAL_DAYS * DAY_MS }])}
        >
          Add a time without arrivals
        </Button>
      </p>
    </>
  );
};
