/** The strips of levels of a report's charts, and their values in words for those who do not see them. */
import { assumedStretches } from "../../forecast/assumed.ts";
import { overdueOf } from "../../supply/answer.ts";
import { formatMass } from "../../format/mass.ts";
import type { LevelHistory } from "../../storage/segment.ts";
import { formatDate } from "../../format/time.ts";
import { isShort } from "../../supply/weight.ts";
import type { ReportContext, ReportedCase } from "../context.ts";
import { totalPoints } from "../level-points.ts";
import type { BandPoint, LevelPoint } from "../../picture/level-shapes.ts";
import type { LevelStrip, SortieMark } from "../../picture/level-picture.ts";
import { propellantInk } from "../../picture/ink.ts";

/** One propellant at one depot. */
export interface Pool {
  readonly depotId: string;
  readonly propellantId: string;
  readonly name: string;
}

/** Every propellant of every depot that has a tank for it. */
export const poolsOf = ({ main }: ReportContext): readonly Pool[] => {
  const { plan } = main.view;
  return plan.depots.flatMap((depot) =>
    plan.propellants
      .toSorted((a, b) => a.position - b.position)
      .filter((propellant) =>
        plan.tanks.some(
          (tank) => tank.ownerId === depot.id && tank.ownerKind === "depot" && tank.propellantId === propellant.id,
        ),
      )
      .map(({ id, name }) => ({ depotId: depot.id, propellantId: id, name: `${name} at ${depot.name}` })),
  );
};

/** The sorties of the plan as marks on the axis; of one depot, or of all. */
export const sortieMarks = ({ main }: ReportContext, depotId: string | null): readonly SortieMark[] => {
  const { plan } = main.view;
  return main.supply.sorties
    .filter(({ sortieId }) => depotId === null || plan.sorties.find(({ id }) => id === sortieId)?.depotId === depotId)
    .map((sortie) => ({ at: sortie.plannedAt, name: sortie.name, isShort: isShort(sortie) }));
};

/** `title`: above the strip; `name`: at the end of its curve. Empty: not there. */
export const stripOf = (
  context: ReportContext,
  { depotId, propellantId }: Pool,
  { title, name }: Pick<LevelStrip, "title" | "name">,
): LevelStrip => {
  const { view } = context.main;
  const { plan } = view;
  const { fromAt, untilAt, massUnit } = context.choices;
  const propellant = plan.propellants.find((each) => each.id === propellantId);
  const tanks = plan.tanks.filter((tank) => tank.ownerId === depotId && tank.propellantId === propellantId);
  const ids = new Set(tanks.map((tank) => tank.id));
  const sum = (pick: (tank: (typeof tanks)[number]) => number): number =>
    tanks.reduce((total, tank) => total + pick(tank), 0);
  return {
    title,
    name,
    massUnit,
    ink: propellantInk(propellant?.position ?? 0),
    recorded: totalPoints(of(view.past, ids), fromAt, Math.min(untilAt, plan.asOfAt)),
    assumed: assumedStretches(plan, overdueOf(context.main.supply.findings), depotId, propellantId)
      .map((stretch) =>
        totalPoints(of(view.past, ids), Math.max(fromAt, stretch.fromAt), Math.min(untilAt, stretch.untilAt)),
      )
      .filter((points) => points.length > 1),
    forecast: forecastPoints(context.main, ids, fromAt, untilAt),
    compared: context.compared ? forecastPoints(context.compared, ids, fromAt, untilAt) : [],
    band: bandOf(context, depotId, propellantId),
    maximumFillKg: sum((tank) => tank.maximumFillKg),
    reserveKg: sum((tank) => tank.reserveKg),
    heelKg: sum((tank) => tank.heelKg),
    // A reading of one tank among several says nothing of the sum.
    readings:
      tanks.length === 1
        ? view.readings.filter(
            (reading) =>
              ids.has(reading.tankId) && !reading.isWithdrawn && reading.at >= fromAt && reading.at <= untilAt,
          )
        : [],
  };
};

/** From the fifth to the ninety-fifth percentile, inside the report's period. */
const bandOf = ({ risk, choices }: ReportContext, depotId: string, propellantId: string): readonly BandPoint[] => {
  const band = risk?.answer.bands.find((each) => each.depotId === depotId && each.propellantId === propellantId);
  if (band === undefined) return [];
  return band.at.flatMap((at, index): readonly BandPoint[] =>
    at < choices.fromAt || at > choices.untilAt
      ? []
      : [{ at, lowKg: band.p5[index] ?? 0, highKg: band.p95[index] ?? 0 }],
  );
};

const of = (histories: readonly LevelHistory[], tankIds: ReadonlySet<string>): readonly LevelHistory[] =>
  histories.filter((history) => tankIds.has(history.tankId));

const forecastPoints = (reported: ReportedCase, tankIds: ReadonlySet<string>, fromAt: number, untilAt: number) =>
  totalPoints(of(reported.forecast, tankIds), Math.max(fromAt, reported.view.plan.asOfAt), untilAt);

const lowestOf = (points: readonly LevelPoint[]): LevelPoint | undefined =>
  points.reduce<LevelPoint | undefined>(
    (low, point) => (low === undefined || point[1] < low[1] ? point : low),
    undefined,
  );

/** "Hydrogen at Tarn: 5.57 t as of 2031-06-01, lowest 4.10 t on 2032-06-04, 6.33 t at the end." */
export const stripWords = (name: string, { recorded, forecast }: LevelStrip): string => {
  const [first] = forecast;
  const lowest = lowestOf(forecast);
  const last = forecast.at(-1);
  if (first === undefined || lowest === undefined || last === undefined) {
    const end = recorded.at(-1);
    return end === undefined ? `${name}: no level in this period.` : `${name}: ${formatMass(end[1])} at the end.`;
  }
  return `${name}: forecast ${formatMass(first[1])} on ${formatDate(first[0])}, lowest ${formatMass(lowest[1])} on ${formatDate(lowest[0])}, ${formatMass(last[1])} at the end.`;
};

/** What stands in a caption where part of a level is assumed; empty: none is. */
export const assumedKey = (strips: readonly LevelStrip[]): string =>
  strips.some(({ assumed }) => assumed.length > 0)
    ? "; dotted: assumed as planned, without a record of what is overdue"
    : "";

/** What the marks of a chart mean. */
export const chartKey = (strips: readonly LevelStrip[]): string =>
  [
    "Recorded level drawn through, forecast dashed",
    ...(strips.some(({ assumed }) => assumed.length > 0)
      ? ["dotted where it rests on events that are overdue and assumed as planned, without a record"]
      : []),
    ...(strips.some(({ readings }) => readings.length > 0)
      ? ["readings as points with one standard uncertainty, thinned where they are dense"]
      : []),
    ...(strips.some(({ band }) => band.length > 1) ? ["the band holds the level in 90 % of the runs of the risk"] : []),
  ].join(", ") + ".";
