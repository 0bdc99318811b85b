/** What each tank loses over time: one line a tank, one piece for each stretch of constant rate, its reason in it. */
import { useMemo } from "react";
import { ratePieces } from "../../app/storage/loss-rate.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { formatInstant } from "../format/instant.ts";
import { tankName } from "../names/entity-words.ts";
import { type ChartSource } from "../plot/chart-list.ts";
import { ChartPlace } from "../plot/chart-place.tsx";
import { useApp, useSession } from "../state/use-session.ts";
import { periodPicture } from "./period-picture.ts";
import { rateWords } from "../names/rate-words.ts";

interface PeriodChartProps {
  readonly plan: PlanSnapshot;
  readonly fromAt: number;
}

const PAPER_WIDTH = 960;

export const PeriodChart = ({ plan, fromAt }: PeriodChartProps) => {
  const session = useSession();
  const selection = useApp((state) => state.selection);
  const untilAt = plan.horizonAt;
  const share = (at: number): string => `${(100 * (at - fromAt)) / Math.max(1, untilAt - fromAt)}%`;
  const tanks = plan.tanks.filter(({ id }) => plan.lossPeriods.some(({ tankId }) => tankId === id));
  const source = useMemo(
    (): ChartSource => ({
      title: "Loss rates of the tanks over time",
      notes: ["dates in UTC"],
      compose: (measure) => periodPicture(plan, fromAt, PAPER_WIDTH, measure),
    }),
    [plan, fromAt],
  );
  if (tanks.length === 0) return null;
  return (
    <ChartPlace source={source}>
      <div className="period-chart">
        {tanks.map(({ id }) => (
          <div key={id} style={{ display: "contents" }}>
            <span className="period-name" title={tankName(plan, id)}>
              {tankName(plan, id)}
            </span>
            <div className="period-line">
              {ratePieces(
                plan.lossPeriods.filter(({ tankId }) => tankId === id),
                fromAt,
                untilAt,
              ).map((piece) => {
                if (piece.period === null) return null;
                const { id: periodId, reason } = piece.period;
                const words = `${reason}, ${rateWords(piece)}`;
                return (
                  <button
                    key={piece.fromAt}
                    type="button"
                    className="period-piece"
                    data-passing={(piece.period.fromAt !== null && piece.period.untilAt !== null) || undefined}
                    aria-pressed={selection?.kind === "lossPeriod" && selection.id === periodId}
                    title={`${words}, from ${formatInstant(piece.fromAt)} to ${formatInstant(piece.untilAt)}`}
                    style={{
                      insetInlineStart: share(piece.fromAt),
                      inlineSize: `calc(${share(piece.untilAt)} - ${share(piece.fromAt)})`,
                    }}
                    onClick={() => session.select({ kind: "lossPeriod", id: periodId })}
                  >
                    <span>{words}</span>
                  </button>
                );
              })}
              <span className="period-now" style={{ insetInlineStart: share(plan.asOfAt) }} aria-hidden="true" />
            </div>
          </div>
        ))}
        <p className="period-ends figures">
          <span>{formatInstant(fromAt)}</span>
          <span>{formatInstant(untilAt)}</span>
        </p>
      </div>
    </ChartPlace>
  );
};
