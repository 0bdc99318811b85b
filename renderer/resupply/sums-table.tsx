/** What the present plan and the proposal come to, side by side: sorties held, flights, cost, losses, probability. */
import { useMemo } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { PlanSums, ResupplyAnswer } from "../../app/resupply/answer.ts";
import type { ProposalRisk } from "../../app/resupply/proposal-risk.ts";
import type { Proposal } from "../../app/resupply/proposed-plan.ts";
import { assumedWords, changeText, runsWords, shareText } from "../../app/risk/answer-words.ts";
import { type MassUnit, massFigure, unitOf } from "../format/mass.ts";
import { formatNumber, formatSigned } from "../format/number.ts";
import { QUICK_RUNS, useRiskChoices } from "../state/risk-choices.ts";
import { type Question, useQuestion } from "../state/use-question.ts";
import { useApp } from "../state/use-session.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { RunPart } from "../widgets/run-part.tsx";
import { costUnitOf } from "../names/cost-unit.ts";

interface SumRow {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  readonly present: string;
  readonly proposed: string;
  readonly change: string;
}

const WAITING = "…";
const REST_MS = 300;

const heldWords = (goal: ResupplyAnswer["goal"]): string =>
  goal === "supplied" ? "Sorties supplied" : "Sorties fuelled";

/** The sums of both plans, row by row, in words for the eye. */
export const sumRows = (
  plan: PlanSnapshot,
  goal: ResupplyAnswer["goal"],
  present: PlanSums,
  proposed: PlanSums,
  choice: MassUnit,
): readonly SumRow[] => {
  const unit = unitOf(Math.max(present.lostKg, proposed.lostKg), choice);
  const decimals = unit === "t" ? 2 : 0;
  const lost = (massKg: number): string => massFigure(massKg, unit, decimals);
  const cost = (value: number | null): string => (value === null ? "not stated" : formatNumber(value));
  return [
    {
      id: "held",
      name: heldWords(goal),
      unit: `of ${formatNumber(proposed.sorties)}`,
      present: formatNumber(present.held),
      proposed: formatNumber(proposed.held),
      change: formatSigned(proposed.held - present.held, 0),
    },
    {
      id: "flights",
      name: "Flights still to arrive",
      unit: "",
      present: formatNumber(present.flights),
      proposed: formatNumber(proposed.flights),
      change: formatSigned(proposed.flights - present.flights, 0),
    },
    {
      id: "cost",
      name: "Cost of flights not yet departed",
      unit: costUnitOf(plan),
      present: cost(present.cost),
      proposed: cost(proposed.cost),
      change: present.cost === null || proposed.cost === null ? "" : formatSigned(proposed.cost - present.cost, 0),
    },
    {
      id: "lost",
      name: "Boiled off and vented",
      unit,
      present: lost(present.lostKg),
      proposed: lost(proposed.lostKg),
      change: formatSigned((proposed.lostKg - present.lostKg) / (unit === "t" ? 1000 : 1), decimals),
    },
  ];
};

const riskRows = ({ value }: Question<"resupply.risk">): readonly SumRow[] => {
  const row = (id: "allFlyWhenPlanned" | "allFly", name: string, risk: ProposalRisk | null): SumRow => ({
    id,
    name,
    unit: "",
    present: risk === null ? WAITING : shareText(risk.present[id], risk.present.replications),
    proposed: risk === null ? WAITING : shareText(risk.proposed[id], risk.proposed.replications),
    change: risk === null ? "" : `${changeText(risk.difference[id])} points`,
  });
  return [
    row("allFlyWhenPlanned", "All sorties fly when planned", value),
    row("allFly", "All sorties fly, some later", value),
  ];
};

const columns: readonly Column<SumRow>[] = [
  { id: "name", heading: "Of the plan", value: ({ name }) => name },
  { id: "unit", heading: "Unit", value: ({ unit }) => unit },
  { id: "present", heading: "Present", isNumber: true, value: ({ present }) => present },
  { id: "proposed", heading: "Proposal", isNumber: true, value: ({ proposed }) => proposed },
  { id: "change", heading: "Change", isNumber: true, value: ({ change }) => change },
];

interface SumsTableProps {
  readonly plan: PlanSnapshot;
  readonly answer: ResupplyAnswer;
  readonly proposed: PlanSums;
  readonly proposal: Proposal;
  /** Of an old plan nothing more is asked. */
  readonly isOld: boolean;
}

export const SumsTable = ({ plan, answer, proposed, proposal, isOld }: SumsTableProps) => {
  const unit = useApp((state) => state.massUnit);
  const { seed } = useRiskChoices();
  const asked = useMemo(
    () => ({
      planCaseId: plan.planCase.id,
      seed,
      runs: QUICK_RUNS,
      added: [...proposal.added],
      craft: [...proposal.craft],
      leftOutIds: [...proposal.leftOutIds],
      sortiesMoved: [...(proposal.sortiesMoved ?? [])],
    }),
    [plan, proposal, seed],
  );
  const risk = useQuestion("resupply risk", "resupply.risk", isOld ? null : asked, {
    title: "Risk of the proposal",
    restMs: REST_MS,
    isFixed: true,
  });
  const { value, run, failure, again } = risk;
  const rows = useMemo(
    () => [...sumRows(plan, answer.goal, answer.present, proposed, unit), ...(isOld ? [] : riskRows(risk))],
    [plan, answer, proposed, unit, isOld, risk],
  );
  const assumed = value === null ? null : assumedWords(value.proposed);
  return (
    <div className="resupply-sums">
      <DataTable
        caption="Both plans compared"
        columns={columns}
        rows={rows}
        rowId={({ id }) => id}
        empty="Nothing to compare."
      />
      <RunPart question={{ run, failure, again }} words="Running both plans" againWords="Ask again" />
      {value !== null && !isOld && (
        <p className="form-advice">
          Probabilities of {runsWords(value.proposed)}, both plans under the same draws. {assumed}
        </p>
      )}
    </div>
  );
};
