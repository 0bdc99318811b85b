/** The strips of levels of a report's charts, and their values in words for those who do not see them. */
import { formatMass } from "../../format/mass.ts";
import type { LevelHistory } from "../../storage/segment.ts";
import { formatDate } from "../../format/time.ts";
import { isShort } from "../../supply/weight.ts";
import type { ReportContext } from "../context.ts";
import { type LevelPoint, totalPoints } from "../level-points.ts";
import type { LevelStrip, SortieMark } from "../../picture/level/level-picture.ts";
import { levelSource } from "../../picture/level/level-source.ts";

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

/** A strip, and what is told of it in words. */
export interface ReportedStrip extends LevelStrip {
  /** Inside the report's period. */
  readonly recorded: readonly LevelPoint[];
  readonly forecast: readonly LevelPoint[];
  readonly hasAssumed: boolean;
  readonly hasReadings: boolean;
  readonly hasBand: boolean;
}

/** `title`: above the strip; `name`: at the end of its curve. Empty: not there. null: the depot has no tank for it. */
export const stripOf = (
  context: ReportContext,
  { depotId, propellantId }: Pool,
  { title, name }: Pick<LevelStrip, "title" | "name">,
): ReportedStrip | null => {
  const { main, compared, risk } = context;
  const { view } = main;
  const { plan } = view;
  const { fromAt, untilAt } = context.choices;
  const propellant = plan.propellants.find((each) => each.id === propellantId);
  if (propellant === undefined) return null;
  const source = levelSource(
    {
      plan,
      past: view.past,
      readings: view.readings,
      forecast: main.forecast,
      compare: compared === null ? null : compared.forecast,
      findings: main.supply.findings,
      risk: risk === null ? null : { bands: risk.answer.bands, isOld: false },
    },
    depotId,
    propellant,
  );
  if (source === null) return null;
  const ids = new Set(source.tanks.map((tank) => tank.id));
  return {
    source,
    title,
    name,
    recorded: totalPoints(of(view.past, ids), fromAt, Math.min(untilAt, plan.asOfAt)),
    forecast: totalPoints(of(main.forecast, ids), Math.max(fromAt, plan.asOfAt), untilAt),
    hasAssumed: source.assumed.some((part) => part.fromAt < untilAt && part.untilAt > fromAt),
    hasReadings: source.readings.some(({ at }) => at >= fromAt && at <= untilAt),
    hasBand: source.band?.levels.at.some((at) => at >= fromAt && at <= untilAt) === true,
  };
};

const of = (histories: readonly LevelHistory[], tankIds: ReadonlySet<string>): readonly LevelHistory[] =>
  histories.filter((history) => tankIds.has(history.tankId));

const lowestOf = (points: readonly LevelPoint[]): LevelPoint | undefined =>
  points.reduce<LevelPoint | undefined>(
    (low, point) => (low === undefined || point[1] < low[1] ? point : low),
    undefined,
  );

/** "Hydrogen at Tarn: 5.57 t as of 2031-06-01, lowest 4.10 t on 2032-06-04, 6.33 t at the end." */
export const stripWords = (name: string, { recorded, forecast }: ReportedStrip): string => {
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
export const assumedKey = (strips: readonly ReportedStrip[]): string =>
  strips.some(({ hasAssumed }) => hasAssumed)
    ? "; dotted: assumed as planned, without a record of what is overdue"
    : "";

/** What the marks of a chart mean. */
export const chartKey = (strips: readonly ReportedStrip[]): string =>
  [
    "Recorded level drawn through, forecast dashed",
    ...(strips.some(({ hasAssumed }) => hasAssumed)
      ? ["dotted where it rests on events that are overdue and assumed as planned, without a record"]
      : []),
    ...(strips.some(({ hasReadings }) => hasReadings)
      ? ["readings as points with one standard uncertainty, thinned where they are dense"]
      : []),
    ...(strips.some(({ hasBand }) => hasBand)
      ? ["the bands hold the level in 80\u202f% and in 90\u202f% of the runs of the risk"]
      : []),
  ].join(", ") + ".";
