/** What each tank loses over time: one line a tank, one piece for each stretch of constant rate, its reason in it. */
import { useMemo, useState } from "react";
import { ratePieces } from "../../app/storage/loss-rate.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { formatInstant } from "../format/instant.ts";
import { tankName } from "../names/entity-words.ts";
import { type ChartSource } from "../plot/chart-list.ts";
import { ChartPlace } from "../plot/chart-place.tsx";
import { useSize } from "../plot/use-size.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { periodPicture } from "./period-picture.ts";
import { reachOf } from "./period-reach.ts";
import { rateWords } from "../names/rate-words.ts";

interface PeriodChartProps {
  readonly plan: PlanSnapshot;
  readonly fromAt: number;
}

const PAPER_WIDTH = 960;
const NOWHERE = { from: 0, until: 0 };

export const PeriodChart = ({ plan, fromAt }: PeriodChartProps) => {
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
            <PeriodLine plan={plan} fromAt={fromAt} tankId={id} />
          </div>
        ))}
        <p className="period-ends figures">
          <span>{formatInstant(fromAt)}</span>
          <span>{formatInstant(plan.horizonAt)}</span>
        </p>
      </div>
    </ChartPlace>
  );
};

/** The pieces of one tank. Each is drawn in a button that reaches wider where the piece is short. */
const PeriodLine = ({ plan, fromAt, tankId }: PeriodChartProps & { readonly tankId: string }) => {
  const session = useSession();
  const selection = useApp((state) => state.selection);
  const [line, setLine] = useState<HTMLElement | null>(null);
  const { width } = useSize(line);
  const untilAt = plan.horizonAt;
  const x = (at: number): number => (width * (at - fromAt)) / Math.max(1, untilAt - fromAt);
  const pieces = ratePieces(
    plan.lossPeriods.filter((period) => period.tankId === tankId),
    fromAt,
    untilAt,
  ).flatMap(({ period, ...piece }) => (period === null ? [] : [{ ...piece, period }]));
  const drawn = pieces.map((piece) => ({ from: x(piece.fromAt), until: x(piece.untilAt) }));
  const reaches = reachOf(drawn, width);
  return (
    <div ref={setLine} className="period-line">
      {pieces.map((piece, place) => {
        const { id, reason, fromAt: since, untilAt: until } = piece.period;
        const words = `${reason}, ${rateWords(piece)}`;
        const [shown, reach] = [drawn[place] ?? NOWHERE, reaches[place] ?? NOWHERE];
        return (
          <button
            key={piece.fromAt}
            type="button"
            className="period-reach"
            aria-label={words}
            aria-pressed={selection?.kind === "lossPeriod" && selection.id === id}
            title={`${words}, from ${formatInstant(piece.fromAt)} to ${formatInstant(piece.untilAt)}`}
            style={{ insetInlineStart: reach.from, inlineSize: reach.until - reach.from }}
            onClick={() => session.select({ kind: "lossPeriod", id })}
          >
            <span
              className="period-piece"
              data-passing={(since !== null && until !== null) || undefined}
              style={{ insetInlineStart: shown.from - reach.from, inlineSize: shown.until - shown.from }}
            >
              <span>{words}</span>
            </span>
          </button>
        );
      })}
      <span className="period-now" style={{ insetInlineStart: x(plan.asOfAt) }} aria-hidden="true" />
    </div>
  );
};
