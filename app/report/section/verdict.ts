/** Go or no-go, and why: the page that a manager reads. */
import { formatMass } from "../../format/mass.ts";
import { formatDate } from "../../ledger/time.ts";
import type { SortieSupply, SupplyReport } from "../../supply/report.ts";
import type { ReportContext } from "../context.ts";
import type { Block } from "../model.ts";
import { flightName, propellantName } from "../names.ts";

/** What the plan's statuses come to. Not holding: at least one sortie is short. */
export const verdictBlocks = (context: ReportContext): readonly Block[] => {
  const { supply } = context.main;
  const short = supply.sorties.filter((sortie) => sortie.status === "short");
  const thin = supply.sorties.filter((sortie) => sortie.status === "thin");
  return [
    {
      kind: "verdict",
      holds: supply.holds,
      word: supply.holds ? (thin.length > 0 ? "Go, on the reserve" : "Go") : "No-go",
      sentence: sentence(supply, short.length, thin.length),
    },
    {
      kind: "list",
      items: [
        ...short.map((sortie) => shortSentence(context, sortie)),
        ...thin.map((sortie) => thinSentence(context, sortie)),
        ...hingeSentences(context),
      ],
    },
  ];
};

const count = (many: number, one: string, more: string): string => (many === 1 ? `1 ${one}` : `${many} ${more}`);

const sentence = (supply: SupplyReport, short: number, thin: number): string => {
  const all = count(supply.sorties.length, "sortie", "sorties");
  if (supply.sorties.length === 0) return "The plan holds no sorties.";
  if (short > 0) return `Of ${all}, ${count(short, "cannot be loaded", "cannot be loaded")} as planned.`;
  if (thin > 0) return `All of ${all} can be loaded; ${count(thin, "eats", "eat")} into the reserve.`;
  return `All of ${all} can be loaded with the reserve kept.`;
};

const shortSentence = (context: ReportContext, sortie: SortieSupply): string => {
  const { plan } = context.main.view;
  const missing = sortie.lines
    .filter((line) => line.missingKg > 0)
    .map((line) => `${formatMass(line.missingKg)} of ${propellantName(plan, line.propellantId).toLowerCase()}`)
    .join(", ");
  const outcome =
    sortie.outcome === "waits and flies" && sortie.loadedAt !== null
      ? ` It waits and flies on ${formatDate(sortie.loadedAt)}.`
      : sortie.firstPossibleAt === null
        ? " It could not load before the end of the forecast."
        : ` The first date at which it could load is ${formatDate(sortie.firstPossibleAt)}.`;
  return `${sortie.name} is short by ${missing || "its load"} on ${formatDate(sortie.plannedAt)}.${outcome}`;
};

const thinSentence = (context: ReportContext, sortie: SortieSupply): string => {
  const { plan } = context.main.view;
  const line = sortie.lines.find((each) => each.propellantId === sortie.limitingPropellantId);
  const eaten = line
    ? `${formatMass(-line.marginOverReserveKg)} of the ${propellantName(plan, line.propellantId).toLowerCase()} reserve`
    : "the reserve";
  return `${sortie.name} on ${formatDate(sortie.plannedAt)} flies, but eats ${eaten}.`;
};

/** More names than these in one sentence are not read. */
const MOST_NAMED = 10;

const hingeSentences = (context: ReportContext): readonly string[] => {
  const { supply, view } = context.main;
  return supply.sorties.flatMap((sortie) => {
    const flights = supply.hinges
      .filter((hinge) => hinge.sortieId === sortie.sortieId)
      .map((hinge) => flightName(view.plan, hinge.flightId));
    if (flights.length === 0) return [];
    const named = flights.length > MOST_NAMED ? flights.slice(0, MOST_NAMED) : flights;
    const rest = flights.length - named.length;
    const loss = flights.length === 1 ? "its loss" : "the loss of any one of them";
    return [
      `${sortie.name} hinges on ${named.join(", ")}${rest > 0 ? ` and ${rest} more (the table of flights has them all)` : ""}: ${loss} makes it short.`,
    ];
  });
};
