/** `sortie`: the sheet of one sortie of a ledger, or of a profile file. */
import { resolve } from "node:path";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import { sheetOfSortie } from "../../../app/sortie/plan-demand.ts";
import { neededEngines } from "../../../app/sortie/engine-words.ts";
import { lifeOfPlan } from "../../../app/sortie/plan-life.ts";
import { readProfileFile } from "../../../app/sortie/profile-file.ts";
import { sortieSheet, type SortieSheet } from "../../../app/sortie/sheet.ts";
import { TOP_UP_HEADING, topUpWords } from "../../../app/storage/top-up-words.ts";
import { readTextFile, textOf } from "../../page/text-file.ts";
import { chooseCase } from "../choose-case.ts";
import { argument, type CliCommand, type CommandHost, optionText, STREAM } from "../cli-command.ts";
import { sortieText } from "../sortie-text.ts";
import { nameIn } from "../../../app/words/named.ts";

/** Names of propellants by id. */
const namer =
  (propellants: readonly { readonly id: string; readonly name: string }[]) =>
  (id: string): string =>
    nameIn(propellants, id);

const fromText = (text: string) => {
  const { lander, profile, mission, propellants } = readProfileFile(text);
  const sheet = sortieSheet(lander, profile, mission, propellants);
  return {
    holds: sheet.findings.length === 0,
    json: { profile: profile.name, ...sheet },
    text: sortieText(profile.name, sheet, namer(propellants)),
  };
};

const chooseSortie = (plan: PlanSnapshot, wanted: string | undefined): Entity<"sortie"> => {
  const computed = plan.sorties.filter(({ demand }) => demand.kind === "profile");
  const found =
    wanted === undefined
      ? computed[0]
      : plan.sorties.find((sortie) => [sortie.id, sortie.key, sortie.name].includes(wanted));
  if (found !== undefined) return found;
  const names = plan.sorties.map(({ name }) => name).join(", ");
  throw new PlanningError(
    "not found",
    wanted === undefined
      ? "No sortie of this plan case flies by a profile, so there is nothing to compute."
      : `There is no sortie "${wanted}". There are: ${names}.`,
    "--sortie",
  );
};

/** The engine change that falls due at this sortie, in words; null: none. */
const dueWords = (plan: PlanSnapshot, sortie: Entity<"sortie">): string | null => {
  const due = lifeOfPlan(plan).lives.flatMap(({ stage, rows }) =>
    rows
      .filter(({ sortieId, exceeds }) => sortieId === sortie.id && exceeds.length > 0)
      .map(
        (row) =>
          `${stage === null ? "The lander" : `The stage ${stage}`} ${neededEngines(row.dueNumbers, row.engines.length)} before this sortie: it would take ${row.exceeds.join(" and ")} over the rating.`,
      ),
  );
  return due.length === 0 ? null : due.join(" ");
};

/** What the depot gives on top of the load; none: nothing is lost. */
const topUpLines = (
  { craft, craftClasses, propellants }: PlanSnapshot,
  sortie: Entity<"sortie">,
): readonly string[] => {
  const classId = craft.find(({ id }) => id === sortie.landerId)?.classId;
  const said = topUpWords(craftClasses.find(({ id }) => id === classId)?.propellants ?? [], propellants);
  return said.length === 0 ? [] : [[TOP_UP_HEADING, ...said.map((sentence) => `  ${sentence}`)].join("\n")];
};

const fromLedger = async (host: CommandHost, path: string, options: Readonly<Record<string, unknown>>) => {
  const ledger = await host.ask("ledger.open", { path: resolve(path) });
  const planCase = chooseCase(ledger, optionText(options, "case"));
  const { plan } = await host.ask("plan.view", { planCaseId: planCase.id });
  const sortie = chooseSortie(plan, optionText(options, "sortie"));
  const sheet: SortieSheet | null = sheetOfSortie(plan, sortie);
  if (sheet === null)
    throw new PlanningError(
      "refused",
      `${sortie.name} does not fly by a profile; its demand is ${sortie.demand.kind === "class" ? "that of its class" : "stated"}.`,
      "--sortie",
    );
  const due = dueWords(plan, sortie);
  const title = `${ledger.fileName}, plan case ${planCase.name}: ${sortie.name}`;
  const text = sortieText(title, sheet, namer(plan.propellants));
  return {
    holds: sheet.findings.length === 0 && due === null,
    json: { ledger: ledger.path, planCaseId: planCase.id, sortieId: sortie.id, engineChangeDue: due, ...sheet },
    text: [text, ...topUpLines(plan, sortie), ...(due === null ? [] : [due])].join("\n\n"),
  };
};

export const sortieCommand = {
  name: "sortie",
  summary: "Compute what one sortie needs, leg by leg, from a ledger or a profile file",
  examples: [{ line: "sortie tarn.coldstock", does: "the first sortie that flies by a profile" }],
  declare: (command) => {
    command
      .argument("<file>", "path of the ledger file, or of a profile file (.json); -: a profile from the standard input")
      .option("--sortie <name>", "ledger: the sortie by name, key or id (default: the first that flies by a profile)")
      .option("--case <name>", "ledger: plan case by name or id (default: the first)");
  },
  act: async (host, given, options) => {
    const path = argument(given, 0);
    if (path === STREAM) return fromText(textOf("standard input", host.input()));
    if (path.toLowerCase().endsWith(".json")) return fromText(readTextFile(resolve(path)));
    return await fromLedger(host, path, options);
  },
} satisfies CliCommand;
