/** What the loss of a tank is made of at the as-of instant: its heat budget, or what its rate rests on instead. */
import { memo } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { HeatBalance } from "../../app/entity/heat-balance.ts";
import type { Tank } from "../../app/entity/tank.ts";
import { tankStorage } from "../../app/storage/tank-storage.ts";
import { levelNow } from "../state/tank-now.ts";
import { formatNumber, withUnit } from "../format/number.ts";
import { freshBalance } from "../heat/fresh-balance.ts";
import { uniqueId } from "../names/new-id.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { HeatBar } from "../heat/heat-bar.tsx";

export const HeatPanel = memo(function HeatPanel({ plan, tank }: { plan: PlanSnapshot; tank: Tank }) {
  const session = useSession();
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const fresh = freshBalance(plan, tank.id);
  const describe = async (basis: HeatBalance): Promise<void> => {
    const reason = "heat balance";
    const id = uniqueId(`${tank.name} ${reason}`, "heat-balance", new Set(plan.lossPeriods.map((row) => row.id)));
    const value = {
      id,
      tankId: tank.id,
      planCaseId: null,
      fromAt: plan.asOfAt,
      untilAt: null,
      basis,
      reason,
      note: "",
    };
    const reply = await session.edit(`Describe the insulation of ${tank.name}`, [
      { op: "put", kind: "lossPeriod", value },
    ]);
    if (reply.ok) session.select({ kind: "lossPeriod", id });
    else session.fail(reply.failure);
  };
  const fluid = plan.propellants.find(({ id }) => id === tank.propellantId)?.fluid ?? null;
  const { period, rate, sheet } = tankStorage(
    tank,
    fluid,
    plan.lossPeriods,
    levelNow(plan, tank.id),
    plan.asOfAt,
    null,
  );
  const figures = [
    withUnit(formatNumber(rate.kgPerDay, 2), "kg/day"),
    rate.percentPerDay === null ? "" : withUnit(formatNumber(rate.percentPerDay, 4), "%/day"),
    rate.heatW === null ? "" : withUnit(formatNumber(rate.heatW, 1), "W"),
  ].filter((part) => part !== "");
  return (
    <section className="heat-panel" aria-label={`What the loss of ${tank.name} is made of`}>
      <h3>What the loss is made of</h3>
      <p>
        {tank.name}, {period === null ? "no loss period in force" : period.reason}:{" "}
        <span className="figures">{figures.join(", ")}</span>
      </p>
      {sheet === null ? (
        <p className="form-advice">
          {rate.heatW === null
            ? "This propellant does not boil, or no property table describes it."
            : "The rate is not taken from a heat balance, so the heat is what would boil as much. Describe insulation, heat paths and coolers to see its parts."}
        </p>
      ) : (
        <HeatBar of={tank.name} budget={sheet.budget} />
      )}
      <p className="loss-ways">
        {sheet === null && fresh !== null && !isReadOnly && (
          <Button onPress={() => void describe(fresh)}>Describe insulation and coolers</Button>
        )}
        {period !== null && (
          <Button onPress={() => session.select({ kind: "lossPeriod", id: period.id })}>
            {sheet === null ? "Show the loss period" : "Edit insulation and coolers"}
          </Button>
        )}
      </p>
    </section>
  );
});
