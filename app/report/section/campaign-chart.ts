/** The one chart of the first page: the levels that the sorties load from, with the sorties and the as-of instant. */
import { isShort } from "../../supply/weight.ts";
import { counted, listed } from "../../words/counted.ts";
import type { ReportContext } from "../context.ts";
import { chartBlock } from "../chart-block.ts";
import type { Block } from "../model.ts";
import { levelPicture } from "../../picture/level/level-picture.ts";
import { type Pool, assumedKey, chartKey, poolsOf, sortieMarks, stripOf, stripWords } from "./level-strips.ts";
import { comparedWords } from "./timeline.ts";

const WIDTH = 500;
/** Of the strips together: what lets the first page stand alone; a letter is 50 points lower than A4. */
const HEIGHT = { A4: 150, letter: 112 } as const;
const MAX_STRIPS = 4;

/** Those that sorties load from first; of the others as many as there is room for. */
const chosen = (context: ReportContext): readonly Pool[] => {
  const { supply, view } = context.main;
  const limited = new Set(supply.sorties.map(({ limitingPropellantId }) => limitingPropellantId));
  const depots = new Set(view.plan.sorties.map(({ depotId }) => depotId));
  const weight = ({ depotId, propellantId }: Pool): number =>
    (depots.has(depotId) ? 0 : 2) + (limited.has(propellantId) ? 0 : 1);
  const pools = poolsOf(context);
  const best = new Set(pools.toSorted((a, b) => weight(a) - weight(b)).slice(0, MAX_STRIPS));
  return pools.filter((pool) => best.has(pool));
};

export const campaignChart = (context: ReportContext): readonly Block[] => {
  const { main, choices } = context;
  const pools = chosen(context);
  if (pools.length === 0) return [];
  const strips = pools.flatMap((pool) => stripOf(context, pool, { title: pool.name, name: "" }) ?? []);
  const left = poolsOf(context).length - pools.length;
  const short = main.supply.sorties.filter(isShort).map(({ name }) => name);
  const words = strips.map((strip) => stripWords(strip.title, strip));
  return [
    chartBlock({
      id: "campaign",
      caption: `Levels and sorties${left > 0 ? `; ${counted(left, "more level")} under “Levels over time”` : ""}${assumedKey(strips)}${comparedWords(context)}`,
      description: [
        chartKey(strips),
        `Sorties are marked below${short.length === 0 ? "; none is short" : `, with a triangle where they are short: ${listed(short)}`}.`,
        ...words,
      ].join(" "),
      picture: levelPicture({
        width: WIDTH,
        stripHeight: Math.floor(HEIGHT[choices.paper] / strips.length),
        fromAt: choices.fromAt,
        untilAt: choices.untilAt,
        asOfAt: main.view.plan.asOfAt,
        massUnit: choices.massUnit,
        strips,
        sorties: sortieMarks(context, null),
      }),
    }),
  ];
};
