/** Carries out the actions that belong to no single view: files, undo, views, theme, plan cases. */
import { useEffect } from "react";
import type { ActionId } from "../../app/contract/actions.ts";
import { useAction } from "../actions/use-actions.ts";
import { exportLedger, saveCopy } from "../exchange/export-ledger.ts";
import { shownSheet } from "../journal/shown-sheet.ts";
import { ChartActions } from "../plot/chart-actions.tsx";
import { ReportActions } from "../reports/report-actions.tsx";
import { useApp, useSession } from "../state/use-session.ts";
import { type ThemeChoice, themeChoices } from "../theme/theme-choice.ts";
import { type View, views } from "../views.ts";

export const ShellActions = () => (
  <>
    <FileActions />
    <UndoActions />
    <CaseActions />
    <ChartActions />
    <ReportActions />
    {views.map((view) => (
      <ShowView key={view.id} view={view} />
    ))}
    {themeChoices.map((choice) => (
      <ShowTheme key={choice} choice={choice} />
    ))}
  </>
);

const FileActions = () => {
  const session = useSession();
  const { host } = session.client;
  const theme = useApp((state) => state.theme);
  useAction("file.open", () => void session.open(() => host.pickLedger()));
  useAction("file.demo.tarn", () => void session.open(() => host.openDemonstration("tarn")));
  useAction("file.demo.beck", () => void session.open(() => host.openDemonstration("beck")));
  const isOpen = useApp((state) => state.ledger !== null);
  useAction("file.saveCopy", () => void saveCopy(session), { isEnabled: isOpen });
  useAction("file.export.json", () => void exportLedger(session), { isEnabled: isOpen });
  useAction("file.import.json", () => void session.open(() => host.importLedger()));
  const isShownOnly = useApp((state) => state.isShownOnly);
  useAction("file.readOnly", () => session.showOnly(!isShownOnly), { isOn: isShownOnly, isEnabled: isOpen });
  useEffect(() => host.showTheme(theme), [host, theme]);
  return null;
};

const UndoActions = () => {
  const session = useSession();
  const ledger = useApp((state) => state.ledger);
  const isWritable = ledger !== null && ledger.readOnlyBecause === null;
  const undo = ledger?.undoLabel ?? null;
  const redo = ledger?.redoLabel ?? null;
  useAction("edit.undo", () => void session.undo(), {
    isEnabled: isWritable && undo !== null,
    label: undo === null ? null : `Undo ${undo}`,
  });
  const isReady = ledger !== null;
  const showHistory = (): void => {
    shownSheet.set({ sheet: "edits" });
    session.show("journal");
  };
  useAction("edit.history", showHistory, { isEnabled: isReady });
  useAction("edit.redo", () => void session.redo(), {
    isEnabled: isWritable && redo !== null,
    label: redo === null ? null : `Redo ${redo}`,
  });
  return null;
};

const CaseActions = () => {
  const session = useSession();
  const ledger = useApp((state) => state.ledger);
  const planCaseId = useApp((state) => state.planCaseId);
  const ids = [...(ledger?.planCases ?? [])].sort((a, b) => a.position - b.position).map((planCase) => planCase.id);
  const step = (by: number): void => {
    const next = ids[(ids.indexOf(planCaseId ?? "") + by + ids.length) % ids.length];
    if (next !== undefined) session.chooseCase(next);
  };
  const isEnabled = ids.length > 1;
  useAction("plan.nextCase", () => step(1), { isEnabled });
  useAction("plan.previousCase", () => step(-1), { isEnabled });
  useAction("plan.followRecords", () => void session.command("ledger.asOf", { asOfAt: null }), {
    isEnabled: ledger !== null && ledger.isAsOfPinned && ledger.readOnlyBecause === null,
  });
  return null;
};

const ShowView = ({ view }: { view: View }) => {
  const session = useSession();
  const isOn = useApp((state) => state.view === view.id);
  const isReady = useApp((state) => state.phase === "ready");
  const show = (): void => {
    session.show(view.id);
    document.getElementById("view")?.focus();
  };
  useAction(view.action, show, { isOn, isEnabled: isReady });
  return null;
};

const themeActions: Readonly<Record<ThemeChoice, ActionId>> = {
  system: "view.system",
  light: "view.light",
  dark: "view.dark",
};

const ShowTheme = ({ choice }: { choice: ThemeChoice }) => {
  const session = useSession();
  const isOn = useApp((state) => state.theme === choice);
  useAction(themeActions[choice], () => session.chooseTheme(choice), { isOn });
  return null;
};
