/** Losses: what boiled off, why, and whether the books agree with the model. */
import { useMemo, useState } from "react";
import { PlanningError } from "../../app/ground/failure.ts";
import { useAction } from "../actions/use-actions.ts";
import { formatDate } from "../format/instant.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { ViewPart, ViewSheet } from "../widgets/view-sheet.tsx";
import { Books } from "./books.tsx";
import { recordedSpan } from "../fit/recorded-span.ts";
import { ChooseBar } from "./choose-bar.tsx";
import { FitPanel } from "./fit-panel.tsx";
import { HeatPanel } from "./heat-panel.tsx";
import { edgesOf, type MonthsChoice, shortLabel } from "./months-choice.ts";
import { OutagePanel } from "./outage-panel.tsx";
import "./losses.css";
import "./losses-print.css";

export const LossesView = () => {
  const current = useApp((state) => state.current);
  return current === null ? null : <Losses current={current} />;
};

const edgesOr = (months: MonthsChoice): readonly number[] | string => {
  try {
    return edgesOf(months);
  } catch (error) {
    if (error instanceof PlanningError) return error.message;
    throw error;
  }
};

const Losses = ({ current }: { current: CaseForecast }) => {
  const session = useSession();
  const { plan } = current;
  const depotId = useApp((state) => state.depotId);
  const [tankId, setTank] = useState<string | null>(null);
  const [stated, setMonths] = useState<MonthsChoice | null>(null);
  const tanks = useMemo(
    () =>
      plan.tanks
        .filter(({ ownerKind }) => ownerKind === "depot")
        .toSorted((a, b) => position(plan, a.propellantId) - position(plan, b.propellantId)),
    [plan],
  );
  const tank = tanks.find(({ id }) => id === tankId) ?? tanks.find(({ ownerId }) => ownerId === depotId) ?? tanks[0];
  const months = useMemo(() => {
    const recorded = recordedSpan(current);
    return stated ?? (recorded === null ? null : { ...recorded, missionStartAt: null });
  }, [stated, current]);
  const edges = useMemo(() => (months === null ? [] : edgesOr(months)), [months]);
  const asked = useMemo(
    () =>
      typeof edges === "string" || edges.length < 2
        ? null
        : { planCaseId: plan.planCase.id, edges: [...edges], withComparison: true },
    [edges, plan.planCase.id],
  );
  const print = (): void => void session.client.host.print().then((reply) => reply.ok || session.fail(reply.failure));
  useAction("losses.print", print, {
    unable: months !== null && tank !== undefined ? null : "There is no statement yet: no tank has a record.",
  });
  const labelOf = useMemo(() => shortLabel(months?.missionStartAt ?? null), [months?.missionStartAt]);
  if (tank === undefined) {
    return (
      <ViewSheet>
        <p className="form-advice">No depot has a tank yet. Add one in the Depots view; its losses are kept here.</p>
      </ViewSheet>
    );
  }
  const names = `${plan.depots.find(({ id }) => id === tank.ownerId)?.name ?? ""}, ${plan.propellants.find(({ id }) => id === tank.propellantId)?.name.toLowerCase() ?? ""}`;
  return (
    <ViewSheet>
      <p className="print-head">
        Losses at {names}. Plan case {plan.planCase.name}, as of {formatDate(plan.asOfAt)}.
      </p>
      {months === null ? (
        <p className="form-advice">
          Nothing is recorded yet. Write an opening for each tank (Record, Journal entry) and book readings; the
          statement follows from the journal.
        </p>
      ) : (
        <>
          <ViewPart>
            <ChooseBar
              plan={plan}
              tanks={tanks}
              tank={tank}
              months={months}
              onTank={({ id }) => setTank(id)}
              onMonths={setMonths}
              onPrint={print}
            />
            {typeof edges === "string" && (
              <p className="form-fault" role="alert">
                {edges}
              </p>
            )}
          </ViewPart>
          <Books
            asked={asked}
            depotId={tank.ownerId}
            propellantId={tank.propellantId}
            names={names}
            position={position(plan, tank.propellantId)}
            labelOf={labelOf}
          />
          <ViewPart>
            <FitPanel key={tank.id} current={current} tank={tank} span={months} />
          </ViewPart>
        </>
      )}
      <ViewPart>
        <div className="loss-columns on-paper">
          <HeatPanel plan={plan} tank={tank} />
          <OutagePanel key={tank.id} current={current} tank={tank} />
        </div>
      </ViewPart>
    </ViewSheet>
  );
};

const position = (plan: CaseForecast["plan"], propellantId: string): number =>
  plan.propellants.find(({ id }) => id === propellantId)?.position ?? 5;
