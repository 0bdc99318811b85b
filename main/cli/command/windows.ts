/** `windows`: the departure windows of a depot; with an ephemeris, its passages, taken as the depot's windows. */
import { createHash } from "node:crypto";
import { basename, resolve } from "node:path";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { Passage } from "../../../app/ephemeris/passages.ts";
import { readEphemeris, windowsFrom } from "../../../app/ephemeris/windows-from.ts";
import { formatInstant } from "../../../app/format/instant.ts";
import { formatNumber } from "../../../app/format/number.ts";
import type { Depot } from "../../../app/entity/depot.ts";
import { windowSourceWords } from "../../../app/ledger/window-words.ts";
import { windowsBetween, windowsOf } from "../../../app/entity/windows.ts";
import { readTextFile, textOf } from "../../page/text-file.ts";
import { chooseCase } from "../choose-case.ts";
import { type CliCommand, type CommandHost, ledgerPath, optionText, STREAM } from "../cli-command.ts";
import { textTable } from "../text-table.ts";

type Options = Readonly<Record<string, unknown>>;

const chooseDepot = (depots: readonly Depot[], wanted: string | undefined): Depot => {
  const found = wanted === undefined ? depots[0] : depots.find((depot) => [depot.id, depot.name].includes(wanted));
  if (found !== undefined) return found;
  const names = depots.map(({ name }) => name).join(", ");
  throw new PlanningError("not found", `There is no depot "${wanted ?? ""}". There are: ${names}.`, "--depot");
};

const dateOf = (options: Options, name: "from" | "until", otherwise: number): number => {
  const text = optionText(options, name);
  if (text === undefined) return otherwise;
  const at = /^\d{4}-\d{2}-\d{2}$/u.test(text) ? Date.parse(`${text}T00:00:00Z`) : Number.NaN;
  if (Number.isNaN(at))
    throw new PlanningError("invalid input", `“${text}” is not a date such as 2031-02-20.`, `--${name}`);
  return at;
};

const kindOf = (options: Options): Passage["kind"] => {
  const given = optionText(options, "passage") ?? "periapsis";
  if (given === "periapsis" || given === "apoapsis") return given;
  throw new PlanningError("invalid input", "--passage is periapsis or apoapsis.", "--passage");
};

const shown = async (host: CommandHost, path: string, options: Options) => {
  const ledger = await host.ask("ledger.open", { path });
  const { plan } = await host.ask("plan.view", { planCaseId: chooseCase(ledger, optionText(options, "case")).id });
  const depot = chooseDepot(plan.depots, optionText(options, "depot"));
  const [fromAt, untilAt] = [dateOf(options, "from", plan.asOfAt), dateOf(options, "until", plan.horizonAt)];
  const at = windowsBetween(depot, fromAt, untilAt);
  const rows = at.map((each) => [formatInstant(each)]);
  const head = `${depot.name}: ${windowSourceWords(depot)}`;
  const table = windowsOf(depot) === null ? "" : `\n\n${textTable([{ title: "Window (UTC)", align: "start" }], rows)}`;
  return { holds: true, json: { depotId: depot.id, source: depot.windowList?.source ?? null, at }, text: head + table };
};

const taken = async (host: CommandHost, path: string, file: string, options: Options) => {
  const fileName = file === STREAM ? "standard input" : basename(file);
  const text = file === STREAM ? textOf(fileName, host.input()) : readTextFile(resolve(file));
  const read = readEphemeris(text);
  const sha256 = createHash("sha256").update(text).digest("hex");
  const whole = windowsFrom(read, kindOf(options), { fileName, sha256 });
  const [fromAt, untilAt] = [dateOf(options, "from", -Infinity), dateOf(options, "until", Infinity)];
  const at = whole.at.filter((each) => each >= fromAt && each <= untilAt);
  if (at.length === 0)
    throw new PlanningError(
      "invalid input",
      `None of the ${String(whole.at.length)} passages lies in that span.`,
      "--from",
    );
  const ledger = await host.ask("ledger.open", { path });
  const { plan } = await host.ask("plan.view", { planCaseId: chooseCase(ledger, optionText(options, "case")).id });
  const depot = chooseDepot(plan.depots, optionText(options, "depot"));
  const value: Depot = { ...depot, windowPeriodDays: null, windowReferenceAt: null, windowList: { ...whole, at } };
  const isPreview = options["preview"] === true;
  if (!isPreview)
    await host.ask("plan.edit", {
      label: `Windows of ${depot.name} from ${fileName}`.slice(0, 120),
      reason: "",
      changes: [{ op: "put", kind: "depot", value }],
    });
  const rows = read.passages
    .filter((passage) => at.includes(passage.at))
    .map((passage) => [formatInstant(passage.at), formatNumber(passage.heightKm)]);
  const head = `${depot.name}: ${windowSourceWords(value)}${isPreview ? "\nShown only; nothing was changed." : ""}`;
  const table = textTable(
    [
      { title: "Window (UTC)", align: "start" },
      { title: "height km", align: "end" },
    ],
    rows,
  );
  return { holds: true, json: { depotId: depot.id, isPreview, ...value.windowList }, text: `${head}\n\n${table}` };
};

export const windowsCommand = {
  name: "windows",
  summary: "List a depot's departure windows, or take them from an orbit ephemeris (CCSDS OEM, KVN)",
  examples: [{ line: "windows tarn.coldstock", does: "the first depot's windows" }],
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .argument(
        "[ephemeris]",
        "orbit ephemeris message about the Moon: its passages become the depot's windows; -: from the standard input",
      )
      .option("--depot <name>", "depot by name or id (default: the first)")
      .option("--passage <kind>", "periapsis or apoapsis (default: periapsis)")
      .option("--from <date>", "windows from this date on, 2031-02-20")
      .option("--until <date>", "windows up to this date")
      .option("--preview", "show what the ephemeris has; change nothing")
      .option("--case <name>", "plan case by name or id (default: the first)");
  },
  act: async (host, given, options) => {
    const path = ledgerPath(given);
    const file = given[1];
    return file === undefined ? await shown(host, path, options) : await taken(host, path, file, options);
  },
} satisfies CliCommand;
