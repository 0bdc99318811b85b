/** Depots: tanks and their levels, what they lose and why, ports and windows, sources, propellants. */
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { ViewPart, ViewSheet } from "../widgets/view-sheet.tsx";
import { PeriodChart } from "./period-chart.tsx";
import { PeriodTable } from "./period-table.tsx";
import { PlantTable } from "./plant-table.tsx";
import { DepotTable, PropellantTable, SourceTable } from "./place-tables.tsx";
import { TankTable } from "./tank-table.tsx";
import "./depots.css";

export const DepotsView = () => {
  const session = useSession();
  const current = useApp((state) => state.current);
  const depotId = useApp((state) => state.depotId);
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  if (current === null) return null;
  const { plan, view } = current;
  const firstAt = Math.min(plan.asOfAt, ...view.past.flatMap(({ segments }) => segments[0]?.startAt ?? []));
  return (
    <ViewSheet>
      <ViewPart>
        <TankTable plan={plan} depotId={depotId} />
        {!isReadOnly && plan.tanks.length > 0 && (
          <p className="depot-records">
            <Button onPress={() => session.openDialog("record.reading")}>Record a reading…</Button>
            <Button onPress={() => session.openDialog("record.closing")}>Close the month…</Button>
          </p>
        )}
      </ViewPart>
      <ViewPart>
        <PeriodTable plan={plan} />
      </ViewPart>
      <ViewPart>
        <PeriodChart plan={plan} fromAt={firstAt} />
      </ViewPart>
      <ViewPart>
        <DepotTable plan={plan} />
      </ViewPart>
      <ViewPart>
        <PropellantTable plan={plan} />
      </ViewPart>
      <ViewPart>
        <SourceTable plan={plan} />
      </ViewPart>
      <ViewPart>
        <PlantTable plan={plan} />
      </ViewPart>
    </ViewSheet>
  );
};
