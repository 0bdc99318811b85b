/** The picture of both plans in its place, of one depot at a time. */
import { useCallback, useMemo } from "react";
import type { FlightChange } from "../../app/resupply/answer.ts";
import { formatNumber } from "../format/number.ts";
import { Plot } from "../plot/plot.tsx";
import type { CaseForecast } from "../state/case-forecast.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { planPicture, planPictureHeight } from "./plan-picture.ts";

interface PlanFigureProps {
  readonly present: CaseForecast;
  readonly proposed: CaseForecast;
  readonly changes: readonly FlightChange[];
}

const notes = [
  "dotted: the present plan; drawn out, over a ruled area: the proposal; dashed: the reserve",
  "full blocks: flights that the proposal adds; struck out: those that it leaves out",
  "dates in UTC",
];

export const PlanFigure = ({ present, proposed, changes }: PlanFigureProps) => {
  const { store } = useSession();
  const unit = useApp((state) => state.massUnit);
  const chosen = useApp((state) => state.depotId);
  const { depots } = present.plan;
  const depot = depots.find(({ id }) => id === chosen) ?? depots[0];
  const input = useMemo(
    () => (depot === undefined ? null : { present, proposed, changes, depotId: depot.id, unit }),
    [present, proposed, changes, depot, unit],
  );
  const compose = useCallback(
    (size: { readonly width: number; readonly height: number }) =>
      input === null ? { ...size, groups: [] } : planPicture(input, size),
    [input],
  );
  if (depot === undefined || input === null) return null;
  const count = (status: "supplied" | "thin" | "short", { glance }: CaseForecast): string =>
    formatNumber(glance.sorties.filter((row) => row.status === status).length);
  const words = (name: string, plan: CaseForecast): string =>
    `${name}: ${count("supplied", plan)} sorties supplied, ${count("thin", plan)} thin, ${count("short", plan)} short.`;
  return (
    <div className="resupply-figure">
      {depots.length > 1 && (
        <ChoiceField
          isBare
          label="Depot"
          value={depot.id}
          choices={depots.map(({ id, name }) => ({ id, name }))}
          onCommit={(depotId) => store.set({ depotId })}
        />
      )}
      <Plot
        title={`${depot.name}: present plan and resupply proposal`}
        notes={notes}
        height={planPictureHeight(input)}
        label={`Levels and flights of both plans. ${words("Present plan", present)} ${words("Proposal", proposed)}`}
        compose={compose}
      />
      <p className="form-advice">
        Dotted: the present plan. Drawn out, over a ruled area: the proposal. Full blocks: flights that it adds.
      </p>
    </div>
  );
};
