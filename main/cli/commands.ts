/** The commands of the command line. A new one is a file in command/ and a line here. */
import type { CliCommand } from "./cli-command.ts";
import { asOfCommand } from "./command/as-of.ts";
import { checkCommand } from "./command/check.ts";
import { completionCommand } from "./command/completion.ts";
import { copiesCommand, restoreCommand } from "./command/copies.ts";
import { demoCommand } from "./command/demo.ts";
import { exportCommand } from "./command/export.ts";
import { importCommand } from "./command/import.ts";
import { issuesCommand } from "./command/issues.ts";
import { lossesCommand } from "./command/losses.ts";
import { plantCommand } from "./command/plant.ts";
import { mergeCommand } from "./command/merge.ts";
import { reportCommand } from "./command/report.ts";
import { schemaCommand } from "./command/schema.ts";
import { riskCommand } from "./command/risk.ts";
import { scheduleCommand } from "./command/schedule.ts";
import { sortieCommand } from "./command/sortie.ts";
import { studyCommand } from "./command/study.ts";
import { storageCommand } from "./command/storage.ts";
import { viewsCommand } from "./command/views.ts";
import { verifyCommand } from "./command/verify.ts";
import { waysCommand } from "./command/ways.ts";
import { windowsCommand } from "./command/windows.ts";

export const cliCommands: readonly CliCommand[] = [
  demoCommand,
  checkCommand,
  asOfCommand,
  riskCommand,
  scheduleCommand,
  exportCommand,
  importCommand,
  mergeCommand,
  verifyCommand,
  copiesCommand,
  restoreCommand,
  reportCommand,
  issuesCommand,
  sortieCommand,
  lossesCommand,
  storageCommand,
  studyCommand,
  plantCommand,
  waysCommand,
  windowsCommand,
  schemaCommand,
  viewsCommand,
  completionCommand,
];
