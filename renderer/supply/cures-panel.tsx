/** What would cure a short sortie, side by side: each computed, with what it does to all others; one press takes it. */
import { useMemo, useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Cure, CureAnswer, SortieFate } from "../../app/supply/cures/cure.ts";
import type { SupplyGlance } from "../../app/supply/answer.ts";
import { formatInstant } from "../format/instant.ts";
import type { MassUnit } from "../format/mass.ts";
import { formatSigned } from "../format/number.ts";
import { repairAskedBy } from "../repair/repair-asked.ts";
import { FoundRepairs } from "../repair/found-repairs.tsx";
import { useResupplyChoices } from "../state/resupply-choices.ts";
import { findPlan } from "../state/use-resupply.ts";
import { useQuestion } from "../state/use-question.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { massColumn } from "../widgets/mass-column.ts";
import { Notice } from "../widgets/notice.tsx";
import { RunLine } from "../widgets/run-line.tsx";
import { Sentence } from "../widgets/sentence.tsx";
import { StatusMark } from "../widgets/status-mark.tsx";
import { ViewPart } from "../widgets/view-sheet.tsx";
import { freshChanges } from "./fresh-changes.ts";
import { repairCures } from "./repair-cures.ts";
import { nameIn } from "../../app/words/named.ts";

const WORKING_OUT = "Trying what would cure it";
const MAX_LABEL = 120;
const REPAIR_REST_MS = 600;

/** "flies 2032-06-17 14:41", "waits, flies 2032-06-17 14:41", "stands down". */
const fateWords = ({ status, outcome, loadedAt, plannedAt }: SortieFate): string => {
  if (outcome === "stands down") return `${status}, stands down`;
  const when = formatInstant(loadedAt ?? plannedAt);
  return outcome === "flies" ? `${status}, loads ${when}` : `waits, loads ${when}`;
};

/** A sortie that waits is supplied when it loads. */
const markOf = (fate: SortieFate): SortieFate["status"] =>
  fate.outcome === "waits and flies" ? "supplied" : fate.status;

const othersWords = (plan: PlanSnapshot, { betterIds, worseIds, newBreaks, outlook }: Cure): string => {
  const nameOf = (id: string): string => nameIn(plan.sorties, id);
  const worse = worseIds.map((id) => {
    const fate = outlook.sorties.find(({ sortieId }) => sortieId === id);
    return `${nameOf(id)} ${fate?.outcome === "flies" ? "dips into the reserve" : (fate?.outcome ?? "")}`;
  });
  const parts = [
    ...(worse.length === 0 ? [] : [`worse: ${worse.join(", ")}`]),
    ...(betterIds.length === 0 ? [] : [`better: ${betterIds.map(nameOf).join(", ")}`]),
    ...newBreaks,
  ];
  return parts.length === 0 ? "as before" : parts.join("; ");
};

const columnsFor = (
  plan: PlanSnapshot,
  { sortieId, now, cures }: CureAnswer,
  unit: MassUnit,
  take: ((cure: Cure) => void) | null,
): readonly Column<Cure>[] => {
  const fateIn = ({ outlook }: Cure) => outlook.sorties.find((row) => row.sortieId === sortieId);
  return [
    {
      id: "cure",
      heading: "What is done",
      isSentence: true,
      value: ({ words }) => words,
      show: ({ words, caution }) => (
        <>
          <Sentence words={words} />
          {caution !== null && <em className="cure-caution"> {caution}</em>}
        </>
      ),
    },
    {
      id: "then",
      heading: "The sortie then",
      value: (cure) => (cure.isCured ? 0 : 1),
      text: (cure) => {
        const fate = fateIn(cure);
        return fate === undefined ? "" : fateWords(fate);
      },
      show: (cure) => {
        const fate = fateIn(cure);
        return fate === undefined ? undefined : <StatusMark status={markOf(fate)} words={fateWords(fate)} />;
      },
    },
    {
      id: "others",
      heading: "Other sorties",
      isSentence: true,
      value: ({ worseIds, newBreaks }) => worseIds.length + newBreaks.length,
      text: (cure) => othersWords(plan, cure),
    },
    {
      id: "flights",
      heading: "Flights",
      isNumber: true,
      value: ({ outlook }) => outlook.flights - now.flights,
      text: ({ outlook }) => formatSigned(outlook.flights - now.flights, 0),
      title: ({ outlook }) => `${String(outlook.flights)} ahead then, ${String(now.flights)} now`,
    },
    massColumn(cures, unit, {
      id: "lost",
      heading: "Lost",
      isSigned: true,
      massKg: ({ outlook }) => outlook.lostKg - now.lostKg,
      title: () => "boiled off, lost in handovers and vented up to the end of the plan, against the plan as it is",
    }),
    {
      id: "take",
      heading: take === null ? "Read-only" : "Take",
      value: () => null,
      show: (cure) =>
        take === null ? undefined : (
          <Button look="link" aria-label={`Take: ${cure.words}`} onPress={() => take(cure)}>
            Take
          </Button>
        ),
    },
  ];
};

interface CuresPanelProps {
  readonly plan: PlanSnapshot;
  readonly glance: SupplyGlance;
}

export const CuresPanel = ({ plan, glance }: CuresPanelProps) => {
  const selection = useApp((state) => state.selection);
  const isTrial = useApp((state) => state.trial !== null);
  const [chosenId, setChosenId] = useState<string | null>(null);
  const short = glance.sorties.filter(({ outcome }) => outcome !== "flies");
  const selectedId = selection?.kind === "sortie" ? selection.id : null;
  const shown =
    short.find(({ sortieId }) => sortieId === selectedId) ??
    short.find(({ sortieId }) => sortieId === chosenId) ??
    short[0];
  if (shown === undefined || isTrial) return null;
  return (
    <ViewPart>
      <Cures
        key={shown.sortieId}
        plan={plan}
        sortieId={shown.sortieId}
        name={shown.name}
        choice={
          short.length < 2 ? null : (
            <ChoiceField
              isBare
              label="Short sortie"
              value={shown.sortieId}
              choices={short.map(({ sortieId, name }) => ({ id: sortieId, name }))}
              onCommit={setChosenId}
            />
          )
        }
      />
    </ViewPart>
  );
};

interface CuresProps {
  readonly plan: PlanSnapshot;
  readonly sortieId: string;
  readonly name: string;
  readonly choice: React.ReactNode;
}

const Cures = ({ plan, sortieId, name, choice }: CuresProps) => {
  const session = useSession();
  const unit = useApp((state) => state.massUnit);
  const planCaseId = useApp((state) => state.planCaseId);
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const asked = planCaseId === null ? null : { planCaseId, sortieId };
  const { value, isCurrent, run, failure } = useQuestion("cures", "supply.cures", asked, {
    title: "What would cure the sortie",
    restMs: 400,
  });
  const answer = value !== null && isCurrent ? value : null;
  const choices = useResupplyChoices();
  const repair = useQuestion(
    "repair",
    "resupply.repair",
    { ...repairAskedBy(choices, []), planCaseId: plan.planCase.id },
    { title: "Repair", restMs: REPAIR_REST_MS },
  );
  const repaired = repair.value !== null && repair.isCurrent ? repair.value : null;
  const rows = useMemo(() => {
    if (answer === null) return [];
    return repaired === null ? answer.cures : [...repairCures(plan, repaired, sortieId, answer.now), ...answer.cures];
  }, [plan, answer, repaired, sortieId]);
  const columns = useMemo(() => {
    const take = (cure: Cure): void =>
      void session
        .edit(`${name}: ${cure.words}`.slice(0, MAX_LABEL), freshChanges(plan, cure.changes))
        .then((reply) => {
          if (!reply.ok) session.fail(reply.failure);
          else session.announce(`Taken: ${cure.words} Undo puts the plan back.`);
        });
    return answer === null ? [] : columnsFor(plan, { ...answer, cures: rows }, unit, isReadOnly ? null : take);
  }, [plan, answer, rows, unit, isReadOnly, session, name]);
  return (
    <section className="supply-cures" aria-label="Cures and repairs">
      {failure !== null && <Notice tone="failure">{failure.message}</Notice>}
      {run !== null && <RunLine run={run} words={WORKING_OUT} />}
      {repair.run !== null && (
        <RunLine run={repair.run} words="Looking for the least change that supplies every sortie" />
      )}
      {answer !== null && (
        <DataTable
          caption={`What would cure ${name}`}
          tools={choice}
          columns={columns}
          rows={rows}
          rowId={({ id }) => id}
          tone={({ isCured }) => (isCured ? undefined : "faint")}
          empty="Nothing that can be tried: no other date, profile, flight or order."
        />
      )}
      {repaired?.standing === "none" && <FoundRepairs plan={plan} answer={repaired} most={0} />}
      <p>
        <Button
          look="link"
          onPress={() => {
            findPlan(session, choices);
            session.show("resupply");
          }}
        >
          Find the whole resupply plan
        </Button>
      </p>
    </section>
  );
};
