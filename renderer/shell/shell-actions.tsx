/** Carries out the actions that belong to no single view: files, undo, views, theme, plan cases. */
import { useEffect } from "react";
import type { ActionId } from "../../app/contract/actions.ts";
import { NO_LEDGER } from "../actions/reasons.ts";
import { useAction } from "../actions/use-actions.ts";
import { exportLedger, saveCopy } from "../exchange/export-ledger.ts";
import { shownSheet } from "../journal/shown-sheet.ts";
import { ChartActions } from "../plot/chart-actions.tsx";
import { ReportActions } from "../reports/report-actions.tsx";
import { useApp, useSession } from "../state/use-session.ts";
import { type ThemeChoice, themeChoices } from "../theme/theme-choice.ts";
import { READ_ONLY, firstOf } from "../widgets/unable.ts";
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
  useAction("file.saveCopy", () => void saveCopy(session), { unable: isOpen ? null : NO_LEDGER });
  useAction("file.export.json", () => void exportLedger(session), { unable: isOpen ? null : NO_LEDGER });
  useAction("file.import.json", () => void session.open(() => host.importLedger()));
  const isShownOnly = useApp((state) => state.isShownOnly);
  useAction("file.readOnly", () => session.showOnly(!isShownOnly), {
    isOn: isShownOnly,
    unable: isOpen ? null : NO_LEDGER,
  });
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
    unable: firstOf(
      [ledger === null, NO_LEDGER],
      [!isWritable, READ_ONLY],
      [undo === null, "There is nothing to undo."],
    ),
    label: undo === null ? null : `Undo ${undo}`,
  });
  const isReady = ledger !== null;
  const showHistory = (): void => {
    shownSheet.set({ sheet: "edits" });
    session.show("journal");
  };
  useAction("edit.history", showHistory, { unable: isReady ? null : NO_LEDGER });
  useAction("edit.redo", () => void session.redo(), {
    unable: firstOf(
      [ledger === null, NO_LEDGER],
      [!isWritable, READ_ONLY],
      [redo === null, "There is nothing to redo."],
    ),
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
  const unable = firstOf([ledger === null, NO_LEDGER], [ids.length < 2, "There is no other plan case."]);
  useAction("plan.nextCase", () => step(1), { unable });
  useAction("plan.previousCase", () => step(-1), { unable });
  useAction("plan.followRecords", () => void session.command("ledger.asOf", { asOfAt: null }), {
    unable: firstOf(
      [ledger === null, NO_LEDGER],
      [ledger?.readOnlyBecause !== null, READ_ONLY],
      [ledger?.isAsOfPinned !== true, "The as-of instant follows the last record already."],
    ),
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
  useAction(view.action, show, { isOn, unable: isReady ? null : NO_LEDGER });
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
