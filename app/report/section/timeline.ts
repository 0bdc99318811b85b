/** The level of every propellant of every depot over the period, as charts. */
import type { ReportContext } from "../context.ts";
import { chartBlock } from "../chart-block.ts";
import type { Block } from "../model.ts";
import { levelPicture } from "../../picture/level/level-picture.ts";
import { assumedKey, chartKey, poolsOf, sortieMarks, stripOf, stripWords } from "./level-strips.ts";
import { nameIn } from "../../words/named.ts";

const WIDTH = 500;
const HEIGHT = 118;

export const timelineBlocks = (context: ReportContext): readonly Block[] => {
  const { plan } = context.main.view;
  const { fromAt, untilAt, massUnit } = context.choices;
  return poolsOf(context).flatMap((pool): readonly Block[] => {
    const name = nameIn(plan.propellants, pool.propellantId);
    const strip = stripOf(context, pool, { title: "", name });
    if (strip === null) return [];
    const block = chartBlock({
      id: `level-${pool.depotId}-${pool.propellantId}`,
      caption: `${pool.name}${assumedKey([strip])}${comparedWords(context)}`,
      description: `${chartKey([strip])} ${stripWords(pool.name, strip)}`,
      picture: levelPicture({
        width: WIDTH,
        stripHeight: HEIGHT,
        fromAt,
        untilAt,
        asOfAt: plan.asOfAt,
        massUnit,
        strips: [strip],
        sorties: sortieMarks(context, pool.depotId),
      }),
    });
    return [block];
  });
};

/** The second line has no room for its name beside the first. */
export const comparedWords = ({ compared }: ReportContext): string =>
  compared === null ? "" : `; in grey: ${compared.view.plan.planCase.name}`;
