/** One row a sortie, of the propellant that limits it: what is left, against which reserve, what is missing, how likely it flies. */
import { shareText } from "../../risk/answer-words.ts";
import type { SortieSupply } from "../../supply/answer.ts";
import { isShort } from "../../supply/weight.ts";
import { listed } from "../../words/counted.ts";
import { instant, mass, massColumn, figureColumn, nothing, shortage, text, wordColumn } from "../cell.ts";
import type { ReportContext } from "../context.ts";
import type { Block, Cell, RowMark } from "../model.ts";
import { propellantName } from "../names.ts";

/** More rows than these leave no room for the rest of the page: those that are not well off come first. */
const MAX_ROWS = 8;

/** Reserve above the heel of a propellant at a sortie's depot, kg: what the margin is measured against. */
export const reserveOf = (context: ReportContext, sortieId: string, propellantId: string): number => {
  const { plan } = context.main.view;
  const depotId = plan.sorties.find(({ id }) => id === sortieId)?.depotId;
  return plan.tanks
    .filter((tank) => tank.ownerKind === "depot" && tank.ownerId === depotId && tank.propellantId === propellantId)
    .reduce((sum, tank) => sum + Math.max(0, tank.reserveKg - tank.heelKg), 0);
};

/**
 * The sorties before it at the same depot that stand down, where what they leave is more than its margin: without that
 * it would not stand as it does.
 */
export const leftBy = (context: ReportContext, sortie: SortieSupply): readonly SortieSupply[] => {
  const { supply, view } = context.main;
  const depotOf = (id: string) => view.plan.sorties.find((row) => row.id === id)?.depotId;
  if (isShort(sortie)) return [];
  const before = supply.sorties.filter(
    (other) =>
      other.outcome === "stands down" &&
      other.plannedAt < sortie.plannedAt &&
      depotOf(other.sortieId) === depotOf(sortie.sortieId),
  );
  const leans = sortie.lines.some((line) => {
    const left = before
      .flatMap(({ lines }) => lines)
      .filter(({ propellantId }) => propellantId === line.propellantId)
      .reduce((sum, { requiredKg }) => sum + requiredKg, 0);
    return left > 0 && line.marginOverReserveKg < left;
  });
  return leans ? before : [];
};

/** "supplied", "short, stands down", "supplied: Sortie 5 stands down". */
export const standingWords = (context: ReportContext, sortie: SortieSupply): string => {
  const parts = [
    sortie.status,
    ...(sortie.landerIsAway ? ["lander away"] : []),
    ...(sortie.outcome === "flies" ? [] : [sortie.outcome]),
  ].join(", ");
  const left = leftBy(context, sortie);
  if (left.length === 0) return parts;
  const names = listed(
    left.map(({ name }) => name),
    2,
  );
  return `${parts}, as ${names} ${left.length === 1 ? "stands" : "stand"} down`;
};

const rank = { short: 0, "not stated": 0, thin: 1, supplied: 2 } as const;

/** At most {@link MAX_ROWS}: the worst first chosen, then in the order of time. */
const shownOf = (sorties: readonly SortieSupply[]): readonly SortieSupply[] => {
  const byTime = (a: SortieSupply, b: SortieSupply): number => a.plannedAt - b.plannedAt;
  return sorties
    .toSorted((a, b) => rank[a.status] - rank[b.status] || byTime(a, b))
    .slice(0, MAX_ROWS)
    .toSorted(byTime);
};

export const sortiesAtAGlance = (context: ReportContext): readonly Block[] => {
  const { supply, view } = context.main;
  const { risk } = context;
  const sorties = shownOf(supply.sorties);
  const rows = sorties.map((sortie): readonly Cell[] => {
    const line = sortie.lines.find(({ propellantId }) => propellantId === sortie.limitingPropellantId);
    const chance = risk?.answer.sorties.find(({ sortieId }) => sortieId === sortie.sortieId);
    return [
      text(sortie.name),
      instant(sortie.plannedAt),
      text(standingWords(context, sortie)),
      ...(line === undefined
        ? [nothing, nothing, nothing, nothing]
        : [
            text(propellantName(view.plan, line.propellantId)),
            shortage(line.marginOverReserveKg),
            mass(reserveOf(context, sortie.sortieId, line.propellantId)),
            line.missingKg > 0 ? shortage(line.missingKg) : nothing,
          ]),
      ...(risk === null
        ? []
        : [chance === undefined ? nothing : text(shareText(chance.fliesWhenPlanned, risk.answer.replications))]),
    ];
  });
  const marks = sorties.flatMap((sortie, row): readonly RowMark[] =>
    isShort(sortie) || sortie.status === "not stated" ? [{ row, as: "warning" }] : [],
  );
  const rest = supply.sorties.length - sorties.length;
  return [
    {
      kind: "table",
      id: "sorties-at-a-glance",
      caption:
        "Each sortie by the propellant that limits it. Margin: what is left over the reserve after loading. Missing: what the load itself lacks, with the reserve used up." +
        (rest > 0 ? ` ${rest} more, better off, stand in the supply check.` : ""),
      columns: [
        wordColumn("Sortie", 1.3),
        wordColumn("Loads", 1.2),
        wordColumn("Status", 2),
        wordColumn("Limited by", 1.2),
        massColumn("Margin", 1),
        massColumn("Reserve above heel", 1.2),
        massColumn("Missing", 1),
        ...(risk === null ? [] : [figureColumn("Flies when planned", null, 1.4)]),
      ],
      rows,
      marks,
    },
  ];
};
