/** What the plan takes on average over the runs: what boils off, is not taken or vented, and how many flights depart. */
import { useMemo } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Estimate, PoolRisk, RiskAnswer } from "../../app/risk/answer.ts";
import { flightsSentence, meanMassText } from "../../app/risk/expected-words.ts";
import { useApp } from "../state/use-session.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { namesOf } from "./names.ts";

export const ExpectedTable = ({ plan, answer }: { plan: PlanSnapshot; answer: RiskAnswer }) => {
  const unit = useApp((state) => state.massUnit);
  const columns = useMemo((): readonly Column<PoolRisk>[] => {
    const nameOf = namesOf(plan);
    const mass = (id: string, heading: string, of: (row: PoolRisk) => Estimate | null): Column<PoolRisk> => ({
      id,
      heading,
      isNumber: true,
      value: (row) => of(row)?.value,
      text: (row) => meanMassText(of(row), unit),
    });
    return [
      { id: "propellant", heading: "Propellant", value: ({ propellantId }) => nameOf(propellantId) },
      { id: "depot", heading: "At", value: ({ depotId }) => nameOf(depotId) },
      mass("boilOff", "Boil-off", ({ boilOffKg }) => boilOffKg),
      mass("notTaken", "Brought, not taken", ({ notTakenKg }) => notTakenKg),
      {
        ...mass("vented", "of it vented", ({ ventedKg }) => ventedKg),
        title: ({ ventedKg }) =>
          ventedKg === null ? "flights that vent and flights that keep it aboard both bring it" : undefined,
      },
    ];
  }, [plan, unit]);
  return (
    <>
      <DataTable
        caption="What it takes on average, ± standard error, until the forecast ends"
        columns={columns}
        rows={answer.pools}
        rowId={({ depotId, propellantId }) => `${depotId}/${propellantId}`}
        empty="No depot has a tank."
      />
      <p>{flightsSentence(answer)}</p>
    </>
  );
};
