/** One row a sortie: how likely it flies when planned and at all, how late it gets, what is short, and what the bad runs have in common. */
import { useMemo } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { QuantileEstimate, RiskAnswer, SortieRisk } from "../../app/risk/answer.ts";
import { shareText } from "../../app/risk/answer-words.ts";
import { causeSentence } from "../../app/risk/cause-words.ts";
import { NARROW_SPACE, formatNumber } from "../format/number.ts";
import { type MassUnit, formatMass } from "../format/mass.ts";
import { useApp, useSession } from "../state/use-session.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { dayColumn } from "../widgets/instant-column.ts";
import { namesOf } from "./names.ts";

const late = (id: "p50" | "p80" | "p90", heading: string, share: string): Column<SortieRisk> => {
  const of = ({ delayDays }: SortieRisk): QuantileEstimate | null => delayDays?.[id] ?? null;
  return {
    id,
    heading,
    unit: "days",
    isNumber: true,
    value: (row) => of(row)?.value,
    text: (row) => formatNumber(of(row)?.value ?? NaN, 1),
    title: (row) => {
      const found = of(row);
      return found === null
        ? "it flew in too few of the runs to say"
        : `${share} of the runs in which it flies are no later; 95 % interval ${formatNumber(found.low, 1)} to ${formatNumber(found.high, 1)} days`;
    },
  };
};

const shortOf = ({ shortOf: all, landerAway }: SortieRisk, nameOf: (id: string) => string): string => {
  const [worst] = all.toSorted((a, b) => b.share.value - a.share.value);
  if (landerAway.value > (worst?.share.value ?? 0)) return "lander away";
  return worst === undefined || worst.share.value === 0 ? "" : nameOf(worst.propellantId);
};

/** "2.1 t more oxygen"; null: no amount of it alone would do. */
const moreOf = (name: string, found: QuantileEstimate | null, unit: MassUnit): string =>
  found === null ? `no amount of ${name} alone` : `${formatMass(found.value, unit)} more ${name}`;

/** What more of one propellant would do, for a sortie that does not find enough in 90 or 95 % of the runs. */
const extraSentences = (row: SortieRisk, nameOf: (id: string) => string, unit: MassUnit): readonly string[] =>
  (["for90", "for95"] as const).flatMap((id) => {
    const lacking = row.extraKg.filter((extra) => extra[id] === null || extra[id].value > 0);
    if (lacking.length === 0) return [];
    const parts = lacking.map((extra) => moreOf(nameOf(extra.propellantId).toLowerCase(), extra[id], unit));
    const share = id === "for90" ? 90 : 95;
    return [
      `${nameOf(row.sortieId)}, to find enough at its first try in ${share}${NARROW_SPACE}% of the runs, each for itself: ${parts.join(", ")}.`,
    ];
  });

const columnsFor = (plan: PlanSnapshot, { replications }: RiskAnswer): readonly Column<SortieRisk>[] => {
  const nameOf = namesOf(plan);
  const share = (id: "fliesWhenPlanned" | "flies", heading: string): Column<SortieRisk> => ({
    id,
    heading,
    isNumber: true,
    value: (row) => row[id].value,
    text: (row) => shareText(row[id], replications),
    title: () => `probability and its standard error, of ${formatNumber(replications)} runs`,
  });
  return [
    { id: "name", heading: "Sortie", value: ({ sortieId }) => nameOf(sortieId) },
    dayColumn("loads", "Planned", ({ sortieId }) => plan.sorties.find(({ id }) => id === sortieId)?.loadAt ?? null),
    share("fliesWhenPlanned", "Flies when planned"),
    share("flies", "Flies at all"),
    late("p50", "Late P50", "half"),
    late("p80", "P80", "80 %"),
    late("p90", "P90", "90 %"),
    { id: "short", heading: "Most often short of", isWide: true, value: (row) => shortOf(row, nameOf) },
  ];
};

export const SortieRiskTable = ({ plan, answer }: { plan: PlanSnapshot; answer: RiskAnswer }) => {
  const session = useSession();
  const unit = useApp((state) => state.massUnit);
  const selection = useApp((state) => state.selection);
  const columns = useMemo(() => columnsFor(plan, answer), [plan, answer]);
  const nameOf = useMemo(() => namesOf(plan), [plan]);
  const sentences = [
    ...answer.sorties.flatMap((row) => [
      ...row.common.slice(0, 2).map((cause) => causeSentence(nameOf(row.sortieId), cause, nameOf)),
      ...extraSentences(row, nameOf, unit),
    ]),
    ...answer.remarks,
  ];
  return (
    <div className="risk-sheet">
      <DataTable
        caption="Probability with its standard error; delay of the runs in which it flies"
        columns={columns}
        rows={answer.sorties}
        rowId={({ sortieId }) => sortieId}
        selectedId={selection?.kind === "sortie" ? selection.id : null}
        onSelect={({ sortieId }) => session.select({ kind: "sortie", id: sortieId })}
        empty="There is no sortie ahead."
      />
      {sentences.length > 0 && (
        <ul className="sentence-list">
          {sentences.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
    </div>
  );
};
