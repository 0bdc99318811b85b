/** The level of every propellant of every depot over the period, as charts. */
import type { LevelHistory } from "../../forecast/segment.ts";
import type { ReportContext, ReportedCase } from "../context.ts";
import { totalPoints } from "../level-points.ts";
import type { Block } from "../model.ts";
import { levelPicture } from "../picture/level-picture.ts";
import { propellantInk } from "../picture/picture.ts";

const WIDTH = 500;
const HEIGHT = 150;

export const timelineBlocks = (context: ReportContext): readonly Block[] => {
  const { plan } = context.main.view;
  return plan.depots.flatMap((depot) =>
    plan.propellants
      .toSorted((a, b) => a.position - b.position)
      .flatMap((propellant): readonly Block[] => {
        const tanks = plan.tanks.filter(
          (tank) => tank.ownerId === depot.id && tank.ownerKind === "depot" && tank.propellantId === propellant.id,
        );
        return tanks.length === 0
          ? []
          : [
              {
                kind: "chart",
                id: `level-${depot.id}-${propellant.id}`,
                caption: `${propellant.name} at ${depot.name}${comparedWords(context)}`,
                description:
                  "Recorded level drawn through, forecast dashed, readings as points with one standard uncertainty.",
                picture: chart(context, depot.id, propellant.id),
              },
            ];
      }),
  );
};

/** The second line has no room for its name beside the first. */
const comparedWords = ({ compared }: ReportContext): string =>
  compared === null ? "" : `; in grey: ${compared.view.plan.planCase.name}`;

const chart = (context: ReportContext, depotId: string, propellantId: string) => {
  const { view } = context.main;
  const { plan } = view;
  const { fromAt, untilAt, massUnit } = context.choices;
  const propellant = plan.propellants.find((each) => each.id === propellantId);
  const tanks = plan.tanks.filter((tank) => tank.ownerId === depotId && tank.propellantId === propellantId);
  const ids = new Set(tanks.map((tank) => tank.id));
  const sum = (pick: (tank: (typeof tanks)[number]) => number): number =>
    tanks.reduce((total, tank) => total + pick(tank), 0);
  return levelPicture({
    width: WIDTH,
    height: HEIGHT,
    fromAt,
    untilAt,
    asOfAt: plan.asOfAt,
    massUnit,
    ink: propellantInk(propellant?.position ?? 0),
    name: propellant?.name ?? propellantId,
    recorded: totalPoints(of(view.past, ids), fromAt, Math.min(untilAt, plan.asOfAt)),
    forecast: forecastPoints(context.main, ids, fromAt, untilAt),
    compared: context.compared ? forecastPoints(context.compared, ids, fromAt, untilAt) : [],
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
  });
};

const of = (histories: readonly LevelHistory[], tankIds: ReadonlySet<string>): readonly LevelHistory[] =>
  histories.filter((history) => tankIds.has(history.tankId));

const forecastPoints = (reported: ReportedCase, tankIds: ReadonlySet<string>, fromAt: number, untilAt: number) =>
  totalPoints(of(reported.forecast, tankIds), Math.max(fromAt, reported.view.plan.asOfAt), untilAt);
