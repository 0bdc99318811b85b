/** `ways`: what each vehicle's way of flying the sorties takes from the ground, and from how many sorties on another takes less. */
import { PlanningError } from "../../../app/ground/failure.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { formatMass, massFigure } from "../../../app/format/mass.ts";
import { formatNumber } from "../../../app/format/number.ts";
import { movesMost } from "../../../app/ways/break-even.ts";
import { type Lifted, type LiftedBy, type WayLifted } from "../../../app/ways/lifted.ts";
import { breakEvenSentence, liftedNotes, movesMostSentence } from "../../../app/ways/lifted-words.ts";
import { depotWaiting } from "../../../app/ways/depot-waiting.ts";
import { flownWay, usualMission } from "../../../app/ways/usual-mission.ts";
import { vehicleWays } from "../../../app/ways/vehicle-way.ts";
import { type WayAcross, waysAcross } from "../../../app/ways/ways-across.ts";
import { chooseCase } from "../choose-case.ts";
import { type CliCommand, ledgerPath, optionText } from "../cli-command.ts";
import { typedNumber } from "../typed-number.ts";
import { textTable } from "../text-table.ts";

const chooseTanker = (plan: PlanSnapshot, wanted: string | undefined): Entity<"craftClass"> => {
  const tankers = plan.craftClasses.filter(({ role }) => role === "tanker");
  const found = wanted === undefined ? tankers[0] : tankers.find(({ id, name }) => id === wanted || name === wanted);
  if (found !== undefined) return found;
  const names = tankers.map(({ name }) => name).join(", ");
  throw new PlanningError(
    "not found",
    wanted === undefined
      ? "The ledger has no class of tanker, so nothing fills a depot."
      : `There is no class of tanker "${wanted}". There are: ${names}.`,
    "--tanker",
  );
};

const MAX_SORTIES = 10_000;
const MAX_DAYS = 10_000;

const countOf = (text: string | undefined): number | null => {
  if (text === undefined) return null;
  const count = Number(text);
  if (Number.isInteger(count) && count >= 1 && count <= MAX_SORTIES) return count;
  throw new PlanningError(
    "invalid input",
    `--sorties is a whole number from 1 to ${String(MAX_SORTIES)}.`,
    "--sorties",
  );
};

const daysOf = (text: string | undefined): number | null => {
  if (text === undefined) return null;
  const days = typedNumber(text, "days", "--days", "--days is the time from one loading to the next.");
  if (days >= 0 && days <= MAX_DAYS) return days;
  throw new PlanningError("invalid input", `--days is from 0 to ${String(MAX_DAYS)}.`, "--days");
};

const plain = ({ way, lifted, refusal, campaign, against }: WayAcross) => ({
  name: way.name,
  classId: way.craftClass.id,
  profileId: way.profile.id,
  brought: way.brought,
  refusal,
  first: lifted?.first ?? null,
  each: lifted?.each ?? null,
  campaign,
  notCounted: lifted?.notCounted ?? [],
  findings: lifted?.sheet.findings.length ?? null,
  breakEven: against,
});

const cells = (campaign: Lifted, each: Lifted): readonly string[] => [
  ...[
    each.propellantKg,
    each.onTheWayKg,
    each.atDepotKg,
    each.craftKg + each.carrierKg,
    each.totalKg,
    campaign.totalKg,
  ].map((kg) => massFigure(kg, "t")),
  formatNumber(campaign.tankerFlights),
  formatNumber(campaign.newCraft),
  campaign.cost === null ? "–" : formatNumber(campaign.cost),
];

/** Each way's name above its figures: beside them it would make the lines longer than a terminal of 80 columns. */
const table = (ways: readonly WayAcross[], sorties: number): string => {
  const flown = ways.flatMap(({ way, lifted, campaign }) => (lifted && campaign ? [{ way, lifted, campaign }] : []));
  const titles = ["propellant", "on the way", "at depot", "hardware", "each", "all", "tankers", "craft", "cost"];
  const [head = "", ...lines] = textTable(
    titles.map((title) => ({ title, align: "end" })),
    flown.map(({ lifted, campaign }) => cells(campaign, lifted.each)),
  ).split("\n");
  return [
    `Tonnes for one further sortie and for all ${String(sorties)}; flights, craft and cost`,
    head,
    ...flown.flatMap(({ way }, i) => [way.name, lines[i] ?? ""]),
  ].join("\n");
};

/** How each other way stands against the reference, and what moves the number most. */
const comparisons = (reference: WayLifted, ways: readonly WayAcross[], by: LiftedBy): string[] =>
  ways.flatMap(({ lifted, against }) => {
    if (lifted === null || against === null || lifted.way.craftClass.id === reference.way.craftClass.id) return [];
    const moved = against.kind === "at" ? [movesMostSentence(movesMost(reference.way, lifted.way, by))] : [];
    return [breakEvenSentence(reference, lifted, against), ...moved];
  });

export const waysCommand = {
  name: "ways",
  summary: "Compare what each vehicle's way of flying the sorties takes from the ground",
  examples: [
    { line: "ways tarn.coldstock", does: "every class of lander by every profile, for the planned sorties" },
    {
      line: "ways tarn.coldstock --tanker Drover --sorties 12",
      does: "brought by another tanker, over twelve sorties",
    },
  ],
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .option("--tanker <name>", "class of tanker by name or id (default: the first)")
      .option("--sorties <count>", "sorties of the campaign (default: those planned)")
      .option("--days <days>", "days from one loading to the next (default: of the planned sorties)")
      .option(
        "--against <name>",
        "the way that the others are set against, by name (default: the one that the plan flies)",
      )
      .option("--case <name>", "plan case by name or id (default: the first)");
  },
  act: async (host, given, options) => {
    const ledger = await host.ask("ledger.open", { path: ledgerPath(given) });
    const planCase = chooseCase(ledger, optionText(options, "case"));
    const { plan } = await host.ask("plan.view", { planCaseId: planCase.id });
    const ways = vehicleWays(plan);
    if (ways.length === 0)
      throw new PlanningError(
        "refused",
        "No class of lander of this ledger has a description and a profile, so there is nothing to compare.",
      );
    const planned = plan.sorties.filter(({ status }) => status === "planned").length;
    const sorties = countOf(optionText(options, "sorties")) ?? Math.max(1, planned);
    const against = optionText(options, "against");
    const named = ways.find(({ id, name }) => id === against || name === against);
    if (against !== undefined && named === undefined)
      throw new PlanningError(
        "not found",
        `There is no way "${against}". There are: ${ways.map(({ name }) => `"${name}"`).join(", ")}.`,
        "--against",
      );
    const by = {
      tanker: chooseTanker(plan, optionText(options, "tanker")),
      mission: usualMission(plan),
      propellants: plan.propellants,
      waiting: depotWaiting(plan, daysOf(optionText(options, "days"))),
    };
    const found = waysAcross(ways, by, sorties, (named ?? flownWay(plan, ways))?.id ?? null);
    const { mission } = by;
    const refused = found.ways.flatMap(({ way, refusal }) => (refusal === null ? [] : [`${way.name}: ${refusal}.`]));
    const notCounted = [...new Set(found.ways.flatMap(({ lifted }) => lifted?.notCounted ?? []))];
    const text = [
      `${ledger.fileName}, plan case ${planCase.name}: from the ground by ${by.tanker.name},\neach with ${formatMass(mission.cargoDownKg)} down, ${formatMass(mission.cargoUpKg)} up, ${String(mission.crew)} crew`,
      "",
      table(found.ways, sorties),
      ...(refused.length === 0 ? [] : ["", ...refused]),
      "",
      ...(found.reference === null ? [] : comparisons(found.reference, found.ways, by)),
      "",
      ...[...liftedNotes(by), ...notCounted].map((note) => `  ${note}`),
    ].join("\n");
    return {
      holds: true,
      json: {
        ledger: ledger.path,
        planCaseId: planCase.id,
        tankerId: by.tanker.id,
        mission,
        sorties,
        waiting: by.waiting,
        reference: found.reference?.way.name ?? null,
        ways: found.ways.map(plain),
      },
      text,
    };
  },
} satisfies CliCommand;
