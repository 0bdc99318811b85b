/** `import` of rows: a table or calendar into a plan case, its columns as told, as remembered, or as guessed. */
import type { Input } from "../../../app/contract/contract.ts";
import { PlanningError } from "../../../app/ground/failure.ts";
import {
  type ColumnChoice,
  type ColumnMapping,
  columnUnits,
  noMapping,
  rowKinds,
  separators,
} from "../../../app/ledger/column-mapping.ts";
import { dateForms } from "../../../app/format/read-date.ts";
import { decimalSigns } from "../../../app/format/read-number.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { OPEN_FROM } from "../../../app/records/book-readings.ts";
import type { ColumnTarget, RowsPreview } from "../../../app/exchange/rows/rows-preview.ts";
import type { RowsFile } from "../../../app/exchange/rows/rows-source.ts";
import { chooseCase } from "../choose-case.ts";
import { type CommandHost, optionText } from "../cli-command.ts";
import { columnLines, rowsText } from "../rows-text.ts";

type Options = Readonly<Record<string, unknown>>;

const oneOf = <T extends string>(options: Options, name: string, flag: string, choices: readonly T[]): T | null => {
  const given = optionText(options, name);
  if (given === undefined) return null;
  const found = choices.find((each) => each === given);
  if (found === undefined) throw new PlanningError("invalid input", `${flag} is one of: ${choices.join(", ")}.`, flag);
  return found;
};

/** "H2 [t]=hydrogen t" → the column hydrogen, in t; "Remark=" → left out. */
const choiceOf = (text: string, targets: readonly ColumnTarget[], headings: readonly string[]): ColumnChoice => {
  const refused = (message: string) => new PlanningError("invalid input", message, "--map");
  const equalsAt = text.lastIndexOf("=");
  if (equalsAt < 0) throw refused(`“${text}” has no “=”. Write --map "their heading=our column".`);
  const [heading, ours] = [text.slice(0, equalsAt).trim(), text.slice(equalsAt + 1).trim()];
  if (!headings.includes(heading))
    throw refused(`The file has no column “${heading}”. It has: ${headings.join(", ")}.`);
  if (ours === "") return { heading, to: null, unit: null };
  const parts = /^(.*?)(?:(?:^|\s+)(kg|t|lb|days|hours))?$/i.exec(ours);
  const unit = columnUnits.find((each) => each === parts?.[2]?.toLowerCase()) ?? null;
  const plain = (parts?.[1] ?? "").trim().toLowerCase();
  const target = targets.find(({ id, name, heading: own }) => [id, name.toLowerCase(), own].includes(plain));
  if (target === undefined)
    throw refused(`There is no column “${ours}” here. There are: ${targets.map(({ name }) => name).join(", ")}.`);
  if (unit !== null && !target.units.includes(unit)) throw refused(`${target.name} is not stated in ${unit}.`);
  return { heading, to: target.id, unit };
};

/** Nothing is taken on a guess that may be wrong. */
const refuseQuestions = (preview: RowsPreview): void => {
  if (preview.questions.length === 0) return;
  const lines = columnLines(preview).map((line) => `  ${line}`);
  const { calendar } = preview;
  throw new PlanningError(
    "invalid input",
    [
      `${preview.kind}: ${preview.readAs}. Not every ${calendar === null ? "column" : "time"} is clear, so nothing was read:`,
      ...preview.questions.map((question) => `- ${question}`),
      ...lines,
      calendar === null
        ? 'Say it with --map "their heading=our column unit" ("their heading=" leaves it out), --dates, --decimals.'
        : "Say it with --zone (UTC, Europe/Paris) and --whole-days (midnights, or a time of day as 06:00).",
    ].join("\n"),
  );
};

/** The source from which what is in tanks came whose books are not open; null: not said. Throws "invalid input" and "not found". */
const openFrom = (plan: PlanSnapshot, options: Options): string | null => {
  const wanted = optionText(options, "openFrom");
  if (wanted === undefined) return null;
  if (options["book"] !== true)
    throw new PlanningError("invalid input", "--open-from goes with --book: it opens books of tanks.", "--open-from");
  const found = plan.sources.find(({ id, name }) => id === wanted || name.toLowerCase() === wanted.toLowerCase());
  if (found === undefined)
    throw new PlanningError(
      "not found",
      `There is no source "${wanted}". There are: ${plan.sources.map(({ name }) => name).join(", ")}.`,
      "--open-from",
    );
  return found.id;
};

/** What is refused because books are not open names the option that opens them. */
const withOffer = (error: unknown, plan: PlanSnapshot, isSaid: boolean): unknown =>
  error instanceof PlanningError && error.field === OPEN_FROM
    ? new PlanningError(
        error.code,
        isSaid
          ? error.message
          : `${error.message} Or say where it came from, and the books open with the first reading of each tank: --open-from "${plan.sources[0]?.name ?? "a source"}" (with --preview to see it first).`,
        "--open-from",
      )
    : error;

export const importRows = async (host: CommandHost, source: RowsFile, path: string, options: Options) => {
  const kind = oneOf(options, "rows", "--rows", rowKinds);
  const forms: ColumnMapping = {
    ...noMapping,
    dates: oneOf(options, "dates", "--dates", dateForms),
    decimals: oneOf(options, "decimals", "--decimals", decimalSigns),
    separator: oneOf(options, "separator", "--separator", separators),
  };
  const ledger = await host.ask("ledger.open", { path });
  const planCaseId = chooseCase(ledger, optionText(options, "case")).id;
  const sheet = optionText(options, "sheet") ?? null;
  const calendar = { zone: optionText(options, "zone") ?? null, wholeDays: optionText(options, "wholeDays") ?? null };
  const isBooking = options["book"] === true;
  const { plan } = await host.ask("plan.view", { planCaseId });
  const openFromSourceId = openFrom(plan, options);
  const booking = isBooking ? { bookReadings: true, ...(openFromSourceId === null ? {} : { openFromSourceId }) } : {};
  const asked: Input<"rows.preview"> = { kind, planCaseId, source, sheet, mapping: forms, calendar };
  const told = (options["map"] ?? []) as readonly string[];
  const isPreview = options["preview"] === true;
  const goodRowsOnly = options["goodRowsOnly"] === true;
  const ask = async (question: Input<"rows.preview">) => {
    const whole = { ...question, ...booking };
    try {
      return isPreview
        ? await host.ask("rows.preview", whole)
        : await host.ask("rows.import", { ...whole, goodRowsOnly });
    } catch (error) {
      throw withOffer(error, plan, openFromSourceId !== null);
    }
  };
  const read = async (): Promise<RowsPreview> => {
    // Where what stands in the file has no part in what is asked, it is read once.
    if (told.length === 0 && (!isBooking || kind === "readings")) return await ask(asked);
    const first = await host.ask("rows.preview", asked);
    if (isBooking && first.kind !== "readings")
      throw new PlanningError("invalid input", `Only gauge readings are booked; these are ${first.kind}.`, "--book");
    const headings = first.columns.map(({ heading }) => heading);
    const columns = told.map((each) => choiceOf(each, first.targets, headings));
    return await ask({ ...asked, kind: first.kind, mapping: { ...forms, columns } });
  };
  const done = await read();
  refuseQuestions(done);
  return { holds: done.faultCount === 0, json: done, text: rowsText(done) };
};
