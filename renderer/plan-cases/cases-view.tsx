/** Plan cases: the list, the campaigns of the one shown, and the comparison with another. */
import { useMemo } from "react";
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";
import type { Campaign, PlanCase } from "../../app/entity/plan-case.ts";
import { useActions } from "../actions/use-actions.ts";
import { formatInstant } from "../format/instant.ts";
import { EntityTable } from "../forms/entity-table.tsx";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { MenuButton } from "../widgets/menu-button.tsx";
import { ViewPart, ViewSheet } from "../widgets/view-sheet.tsx";
import { CaseFigureTable } from "./case-figure-table.tsx";
import { Comparison } from "./comparison.tsx";
import { READ_ONLY } from "../widgets/unable.ts";

const caseColumns = (
  { planCases }: LedgerInfo,
  shownId: string | null,
  compareId: string | null,
): readonly Column<PlanCase>[] => [
  { id: "name", heading: "Plan case", value: ({ name }) => name },
  {
    id: "shown",
    heading: "Shown",
    value: ({ id }) => {
      if (id === shownId) return "shown";
      return id === compareId ? "compared" : "";
    },
  },
  {
    id: "from",
    heading: "Copied from",
    value: ({ basedOnId }) => planCases.find(({ id }) => id === basedOnId)?.name ?? "",
  },
  {
    id: "policy",
    heading: "If a sortie is short",
    value: ({ shortPolicy }) => shortPolicy,
  },
  {
    id: "horizon",
    heading: "Forecast ends",
    value: ({ horizonAt }) => horizonAt,
    text: ({ horizonAt }) => formatInstant(horizonAt),
  },
  { id: "note", heading: "Note", isSentence: true, value: ({ note }) => note },
];

const campaignColumns: readonly Column<Campaign>[] = [
  { id: "name", heading: "Campaign", value: ({ name }) => name },
  { id: "goal", heading: "Goal", value: ({ goal }) => goal },
  {
    id: "hold",
    heading: "Maximum wait, then stand down",
    unit: "days",
    isNumber: true,
    value: ({ holdLimitDays }) => holdLimitDays,
  },
];

export const CasesView = () => {
  const ledger = useApp((state) => state.ledger);
  const current = useApp((state) => state.current);
  const compare = useApp((state) => state.compare);
  if (ledger === null || current === null) return null;
  return (
    <ViewSheet>
      <ViewPart>
        <CaseTable ledger={ledger} />
      </ViewPart>
      <ViewPart>
        <CaseFigureTable ledger={ledger} />
      </ViewPart>
      {compare !== null && <Comparison current={current} compare={compare} />}
      <ViewPart>
        <EntityTable
          kind="campaign"
          caption={`Campaigns of ${current.plan.planCase.name}`}
          columns={campaignColumns}
          rows={current.plan.campaigns}
          empty="No campaign yet. Sorties belong to one."
        />
      </ViewPart>
    </ViewSheet>
  );
};

const CaseTable = ({ ledger }: { ledger: LedgerInfo }) => {
  const session = useSession();
  const actions = useActions();
  const shownId = useApp((state) => state.planCaseId);
  const compareId = useApp((state) => state.compareCaseId);
  const selection = useApp((state) => state.selection);
  const columns = useMemo(() => caseColumns(ledger, shownId, compareId), [ledger, shownId, compareId]);
  const isReadOnly = ledger.readOnlyBecause !== null;
  const selectedId = selection?.kind === "planCase" ? selection.id : null;
  return (
    <DataTable
      caption="Plan cases"
      columns={columns}
      rows={ledger.planCases}
      rowId={({ id }) => id}
      selectedId={selectedId ?? shownId}
      onSelect={({ id }) => session.select({ kind: "planCase", id })}
      empty="No plan case."
      tools={
        <>
          {selectedId !== null && selectedId !== shownId && (
            <>
              <Button onPress={() => session.chooseCase(selectedId)}>Show this case</Button>
              <Button onPress={() => session.compareWith(selectedId)}>Compare with this case</Button>
            </>
          )}
          {compareId !== null && <Button onPress={() => session.compareWith(null)}>Stop comparing</Button>}
          <MenuButton
            look="quiet"
            label="Case"
            unable={isReadOnly ? READ_ONLY : null}
            choices={[
              { id: "new", label: "New case from this one…", run: () => void actions.run("plan.newCase") },
              { id: "rename", label: "Rename case…", run: () => void actions.run("plan.renameCase") },
              {
                id: "remove",
                label: "Delete case…",
                isDanger: true,
                unable: ledger.planCases.length < 2 ? "It is the only plan case; a ledger has at least one." : null,
                run: () => void actions.run("plan.removeCase"),
              },
            ]}
          />
        </>
      }
    />
  );
};
