/** What if: a cooler outage, and a month of waiting, in kilograms, flights and sorties. Nothing is written. */
import { memo, useMemo, useState } from "react";
import { PlanningError } from "../../app/ground/failure.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import type { Tank } from "../../app/entity/tank.ts";
import { meanDeliveryKg, type OutageWhatIf, planOutageCost } from "../../app/losses/plan-outage.ts";
import { waitingCost } from "../../app/losses/waiting-cost.ts";
import { kFromPercent, percentFromK, RATE_MONTH_DAYS } from "../../app/storage/rate-units.ts";
import { levelNow, rateNow } from "../state/tank-now.ts";
import { formatMass } from "../format/mass.ts";
import { formatNumber } from "../format/number.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";

interface OutagePanelProps {
  readonly current: CaseForecast;
  readonly tank: Tank;
}

type Kind = OutageWhatIf["during"]["kind"];

const flightWords = (flights: number | null): string =>
  flights === null ? "no flight of this plan brings any" : `${formatNumber(flights, 2)} of a mean delivery`;

const outageLines = (current: CaseForecast, outage: OutageWhatIf): readonly string[] => {
  try {
    const { byPropellant, sorties } = planOutageCost(current.plan, outage);
    const costs = byPropellant.map(({ propellantId, extraLostKg, flights }) => {
      const name = current.plan.propellants.find(({ id }) => id === propellantId)?.name.toLowerCase() ?? propellantId;
      return `It costs ${formatMass(extraLostKg)} more of ${name} by the end of the plan: ${flightWords(flights)}.`;
    });
    const changes = sorties.map(({ name, before, after }) => `${name} goes from ${before} to ${after}.`);
    return [...costs, ...(changes.length === 0 ? ["No sortie changes its status."] : changes)];
  } catch (error) {
    if (error instanceof PlanningError) return [error.message];
    throw error;
  }
};

const waitingLine = ({ plan, forecast }: CaseForecast, tank: Tank): string => {
  const level = levelNow(plan, tank.id);
  const cost = waitingCost(level, rateNow(plan, tank.id), RATE_MONTH_DAYS, meanDeliveryKg(forecast, tank.propellantId));
  return `Waiting ${RATE_MONTH_DAYS} days with the present ${formatMass(level)} costs ${formatMass(cost.lostKg)}: ${flightWords(cost.flights)}.`;
};

export const OutagePanel = memo(function OutagePanel({ current, tank }: OutagePanelProps) {
  const { plan } = current;
  const hasCoolers = plan.lossPeriods.some(
    ({ tankId, basis }) => tankId === tank.id && basis.kind === "heat balance" && basis.coolers.length > 0,
  );
  const [fromAt, setFrom] = useState(plan.asOfAt);
  const [days, setDays] = useState(14);
  const [kind, setKind] = useState<Kind>(hasCoolers ? "coolers off" : "stated");
  const usual = percentFromK(rateNow(plan, tank.id).kPerDay, 1);
  // Three times the present share is where a planner begins to ask; it is theirs to change.
  const [share, setShare] = useState(() => Number((3 * Math.max(usual, 0.01)).toPrecision(3)));
  const lines = useMemo(
    () =>
      outageLines(current, {
        tankIds: [tank.id],
        fromAt,
        untilAt: fromAt + Math.round(days * DAY_MS),
        during: kind === "stated" ? { kind, kPerDay: kFromPercent(share, 1), cKgPerDay: 0 } : { kind },
      }),
    [current, tank.id, fromAt, days, kind, share],
  );
  return (
    <section className="outage-panel" aria-label={`What an outage at ${tank.name} costs`}>
      <h3>What an outage costs</h3>
      <div className="loss-fields">
        <InstantField label="Begins" value={fromAt} onCommit={setFrom} />
        <NumberField label="Lasts" unit="days" min={0} max={3650} isMinOpen value={days} onCommit={setDays} />
        <ChoiceField
          label="Meanwhile"
          value={kind}
          choices={[
            { id: "coolers off", name: "coolers off", note: "needs a heat balance with coolers" },
            { id: "stated", name: "it loses a stated share" },
          ]}
          onCommit={setKind}
        />
        {kind === "stated" && (
          <NumberField
            label="Proportional loss"
            unit="%/day"
            min={0}
            max={99}
            step={0.1}
            value={share}
            onCommit={setShare}
          />
        )}
      </div>
      <ul className="loss-messages" aria-live="polite">
        {lines.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
        <li>{waitingLine(current, tank)}</li>
      </ul>
    </section>
  );
});
