/** The engines of every lander through the campaign: what each has behind it, and when it is due. */
import { formatNumber, withUnit } from "../../format/number.ts";
import { formatDate } from "../../format/time.ts";
import { neededEngines, stageOfCraft } from "../../sortie/engine-words.ts";
import type { EngineLife, LifeRow } from "../../sortie/life.ts";
import { stagesOf } from "../../sortie/stage.ts";
import { lifeOfPlan } from "../../sortie/plan-life.ts";
import { figureColumn, instant, nothing, number, text, wordColumn } from "../cell.ts";
import type { ReportContext } from "../context.ts";
import type { Block, Cell } from "../model.ts";
import { nameIn } from "../../words/named.ts";

const plural = (count: number, one: string, many: string): string =>
  count === 1 ? `1 ${one}` : `${String(count)} ${many}`;

/** "all 4", "1, 3 of 4". */
const dueWords = ({ dueNumbers, engines }: LifeRow): string =>
  dueNumbers.length === engines.length
    ? `all ${String(engines.length)}`
    : `${dueNumbers.join(", ")} of ${String(engines.length)}`;

/** Each engine after the last sortie, and the first sortie before which it must be changed. */
const engineRows = (context: ReportContext, life: EngineLife): readonly (readonly Cell[])[] => {
  const { plan } = context.main.view;
  const lander = stageOfCraft(nameIn(plan.craft, life.landerId), life.stage);
  return (life.rows.at(-1)?.engines ?? []).map((engine, index): readonly Cell[] => {
    const due = life.rows.find((row) => (row.engines[index]?.exceeds.length ?? 0) > 0);
    return [
      text(lander),
      number(engine.number, 0),
      number(engine.ignitions, 0),
      number(engine.burnSeconds, 0),
      due === undefined ? text("not in this plan") : text(nameIn(plan.sorties, due.sortieId)),
      instant(due?.at ?? null),
      text(due?.engines[index]?.exceeds.join(" and ") ?? ""),
    ];
  });
};

/** Rating, changes of engines and what falls due, a sentence each. */
const sentences = (context: ReportContext, life: EngineLife): readonly string[] => {
  const { plan } = context.main.view;
  const craft = plan.craft.find(({ id }) => id === life.landerId);
  const described = plan.craftClasses.find(({ id }) => id === craft?.classId)?.lander;
  const engines = described && stagesOf(described).find((stage) => stage.name === life.stage)?.engines;
  const rated = [
    engines?.ratedIgnitions == null ? "" : plural(engines.ratedIgnitions, "ignition", "ignitions"),
    engines?.ratedBurnSeconds == null ? "" : `${withUnit(formatNumber(engines.ratedBurnSeconds), "s")} of burn`,
  ].filter((part) => part !== "");
  const name = stageOfCraft(craft?.name ?? life.landerId, life.stage);
  const due = life.dueBefore;
  return [
    `${name}: ${plural(engines?.count ?? 0, "engine", "engines")}, ${rated.length === 0 ? "not rated" : `each rated for ${rated.join(" and ")}`}. Where a burn lights only some and does not name them, ${engines?.choice === "least worn" ? "the least worn ones burn" : "the same ones burn every time, from engine 1 on"}.`,
    ...(craft?.engineChanges ?? [])
      .filter(({ stage }) => (stage ?? null) === life.stage)
      .map(
        ({ at, engineNumbers, note }) =>
          `${name}: ${engineNumbers === undefined ? "all engines" : `engine ${engineNumbers.join(", ")}`} changed on ${formatDate(at)}${note === "" ? "" : ` (${note})`}.`,
      ),
    due === null
      ? `${name} needs no engine change in this plan.`
      : `${name} ${neededEngines(due.dueNumbers, due.engines.length)} before ${nameIn(plan.sorties, due.sortieId)} on ${formatDate(due.at)}, which would take ${due.exceeds.join(" and ")} over the rating.`,
  ];
};

export const craftLifeBlocks = (context: ReportContext): readonly Block[] => {
  const { view, supply } = context.main;
  const { plan } = view;
  const leaves = new Map(supply.sorties.map(({ sortieId, loadedAt }) => [sortieId, loadedAt]));
  const { lives, uncountedSortieIds } = lifeOfPlan(plan, (id, plannedAt) =>
    leaves.has(id) ? (leaves.get(id) ?? null) : plannedAt,
  );
  const uncounted = uncountedSortieIds.map((id) => nameIn(plan.sorties, id));
  const missing: readonly Block[] =
    uncounted.length === 0
      ? []
      : [
          {
            kind: "paragraph",
            text: `Not counted, because their demand is stated and what they use of the engines is not known: ${uncounted.join(", ")}.`,
          },
        ];
  if (lives.length === 0)
    return [
      { kind: "paragraph", text: "No sortie flies by a profile, so what is used of the engines is not known." },
      ...missing,
    ];
  return [
    { kind: "list", items: lives.flatMap((life) => sentences(context, life)) },
    ...missing,
    {
      kind: "table",
      id: "craft-life",
      caption:
        "Sortie by sortie at its forecast date: what the engines have behind them since they were changed, of the one used most.",
      columns: [
        wordColumn("Lander", 1.3),
        wordColumn("Sortie", 1.6),
        wordColumn("Leaves", 1.3),
        figureColumn("Ignitions", null, 0.9),
        figureColumn("Burn", "s", 0.9),
        wordColumn("Engines due before it", 2.2),
      ],
      rows: lives.flatMap((life) =>
        life.rows.map((row): readonly Cell[] => [
          text(stageOfCraft(nameIn(plan.craft, life.landerId), life.stage)),
          text(nameIn(plan.sorties, row.sortieId)),
          instant(row.at),
          number(row.ignitions, 0),
          number(row.burnSeconds, 0),
          row.dueNumbers.length === 0 ? nothing : text(dueWords(row)),
        ]),
      ),
    },
    {
      kind: "table",
      id: "engine-life",
      caption: "Engine by engine after the last sortie, and the first sortie before which it must be changed.",
      columns: [
        wordColumn("Lander", 1.3),
        figureColumn("Engine", null, 0.7),
        figureColumn("Ignitions", null, 0.9),
        figureColumn("Burn", "s", 0.9),
        wordColumn("Due before", 1.5),
        wordColumn("On", 1.3),
        wordColumn("Because of", 1.4),
      ],
      rows: lives.flatMap((life) => engineRows(context, life)),
    },
  ];
};
