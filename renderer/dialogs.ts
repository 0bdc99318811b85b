/** The dialogs, by the action that opens each: one line a dialog. An action that stands here needs no other handler. */
import type { DialogProps } from "./widgets/dialog-props.ts";
import type { ComponentType } from "react";
import type { ActionId } from "../app/contract/actions.ts";
import { CopiesDialog } from "./copies/copies-dialog.tsx";
import { PlantFlightsDialog } from "./depots/plant-flights-dialog.tsx";
import { ExportRowsDialog } from "./exchange/export-rows-dialog.tsx";
import { ImportDialog } from "./exchange/import-dialog.tsx";
import { VerifyDialog } from "./exchange/verify-dialog.tsx";
import { FindDialog } from "./find/find-dialog.tsx";
import { MergeDialog } from "./merge/merge-dialog.tsx";
import { AddFlightDialog, AddLossPeriodDialog, AddSortieDialog } from "./forms/add-dialog.tsx";
import { AsOfDialog } from "./plan-cases/as-of-dialog.tsx";
import { CompareDialog, NewCaseDialog, RemoveCaseDialog, RenameCaseDialog } from "./plan-cases/case-dialogs.tsx";
import { ClosingDialog } from "./records/closing-record.tsx";
import { EntryDialog } from "./records/entry-record.tsx";
import { ArrivalDialog, DepartureDialog, LossDialog } from "./records/flight-records.tsx";
import { ReadingDialog } from "./records/reading-record.tsx";
import { LoadingDialog, ReturnDialog, StandDownDialog } from "./records/sortie-records.tsx";
import { IssueDialog } from "./reports/issue-dialog.tsx";
import { AboutDialog } from "./about/about-dialog.tsx";
import { HandbookDialog, NewsDialog, ViewHelpDialog } from "./handbook/handbook-dialog.tsx";
import { KeyboardDialog } from "./about/keyboard-dialog.tsx";
import { RecentDialog } from "./start/recent-dialog.tsx";
import { NewLedgerDialog } from "./start/new-ledger-dialog.tsx";

export interface DialogEntry {
  readonly component: ComponentType<DialogProps>;
  /** Whether there must be an open ledger; whether it must be writable. */
  readonly needs: "nothing" | "ledger" | "writable ledger";
}

export const dialogs: Partial<Readonly<Record<ActionId, DialogEntry>>> = {
  "file.recentList": { component: RecentDialog, needs: "nothing" },
  "file.new": { component: NewLedgerDialog, needs: "nothing" },
  "file.import.rows": { component: ImportDialog, needs: "writable ledger" },
  "file.export.rows": { component: ExportRowsDialog, needs: "ledger" },
  "file.merge": { component: MergeDialog, needs: "writable ledger" },
  "file.copies": { component: CopiesDialog, needs: "ledger" },
  "file.verify": { component: VerifyDialog, needs: "ledger" },
  "edit.find": { component: FindDialog, needs: "ledger" },
  "report.issue": { component: IssueDialog, needs: "writable ledger" },
  "plan.addFlight": { component: AddFlightDialog, needs: "writable ledger" },
  "plan.addSortie": { component: AddSortieDialog, needs: "writable ledger" },
  "plan.addLossPeriod": { component: AddLossPeriodDialog, needs: "writable ledger" },
  "plan.plantFlights": { component: PlantFlightsDialog, needs: "writable ledger" },
  "plan.newCase": { component: NewCaseDialog, needs: "writable ledger" },
  "plan.renameCase": { component: RenameCaseDialog, needs: "writable ledger" },
  "plan.removeCase": { component: RemoveCaseDialog, needs: "writable ledger" },
  "plan.compare": { component: CompareDialog, needs: "ledger" },
  "plan.asOf": { component: AsOfDialog, needs: "writable ledger" },
  "record.reading": { component: ReadingDialog, needs: "writable ledger" },
  "record.departure": { component: DepartureDialog, needs: "writable ledger" },
  "record.arrival": { component: ArrivalDialog, needs: "writable ledger" },
  "record.loss": { component: LossDialog, needs: "writable ledger" },
  "record.loading": { component: LoadingDialog, needs: "writable ledger" },
  "record.return": { component: ReturnDialog, needs: "writable ledger" },
  "record.standDown": { component: StandDownDialog, needs: "writable ledger" },
  "record.closing": { component: ClosingDialog, needs: "writable ledger" },
  "record.entry": { component: EntryDialog, needs: "writable ledger" },
  "help.page": { component: ViewHelpDialog, needs: "nothing" },
  "help.handbook": { component: HandbookDialog, needs: "nothing" },
  "help.news": { component: NewsDialog, needs: "nothing" },
  "help.keyboard": { component: KeyboardDialog, needs: "nothing" },
  "help.about": { component: AboutDialog, needs: "nothing" },
};
