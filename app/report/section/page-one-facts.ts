/** The facts of the first page: of when it is, what it rests on, what it costs, what is to be decided next, what has moved. */
import { formatMass } from "../../format/mass.ts";
import { formatNumber } from "../../format/number.ts";
import type { LossBasis } from "../../entity/loss-period.ts";
import { formatDate, formatMinute } from "../../format/time.ts";
import { capitalised, counted, listed } from "../../words/counted.ts";
import { missingCase } from "../../ground/missing-case.ts";
import type { EarlierIssue, ReportContext } from "../context.ts";
import type { Fact } from "../model.ts";
import { flightName, tankName } from "../names.ts";

/** More names than these in one line are not read. */
const MAX_NAMED = 6;

/** Lines of what has moved since the issue before. */
const MAX_LINES = 3;

const basisWords = ({ kind }: LossBasis): string => {
  switch (kind) {
    case "heat balance":
      return "the heat balance";
    case "measured":
      return "measurement";
    case "stated":
      return "statement";
    default:
      return missingCase(kind);
  }
};

const depotTanks = (context: ReportContext) =>
  context.main.view.plan.tanks.filter(({ ownerKind }) => ownerKind === "depot");

/** "Gauge readings up to 2031-05-30 (Tarn hydrogen ±40 kg, …); loss rates by the heat balance; 6 of 11 risk inputs stated." */
const restsOn = (context: ReportContext): string => {
  const { plan, readings } = context.main.view;
  const tanks = depotTanks(context);
  const last = tanks.map(({ id }) =>
    readings
      .filter((row) => row.tankId === id && !row.isWithdrawn && row.at <= plan.asOfAt)
      .reduce<(typeof readings)[number] | null>((best, row) => (best === null || row.at >= best.at ? row : best), null),
  );
  const read = last.filter((row) => row !== null);
  const unread = tanks.filter((_, index) => last[index] === null).map(({ name }) => name);
  const days = read.map(({ at }) => formatDate(at)).toSorted();
  const when = days[0] === days.at(-1) ? days[0] : `of ${days[0]} to ${days.at(-1)}`;
  const gauges = listed(
    read.map(({ tankId, sigmaKg }) => `${tankName(plan, tankId)} ±${formatMass(sigmaKg)}`),
    MAX_NAMED,
  );
  const ids = new Set(tanks.map(({ id }) => id));
  const bases = new Set(plan.lossPeriods.filter(({ tankId }) => ids.has(tankId)).map(({ basis }) => basisWords(basis)));
  const inputs = context.risk?.answer.inputs;
  return capitalised(
    [
      ...(read.length === 0
        ? ["no gauge reading: the levels are those of the books"]
        : [`last gauge readings ${when} (one sigma: ${gauges})`]),
      ...(read.length > 0 && unread.length > 0 ? [`no reading of ${listed(unread, MAX_NAMED)}`] : []),
      ...(bases.size === 0 ? ["no loss rate is stated"] : [`loss rates by ${listed([...bases])}`]),
      ...(inputs === undefined
        ? []
        : [
            `${formatNumber(inputs.count - inputs.assumed)} of ${counted(inputs.count, "risk input")} stated with a source`,
          ]),
    ].join("; ") + ".",
  );
};

/** What the flights still to depart cost; none where no class states a cost. */
const costWords = (context: ReportContext): string | null => {
  const { plan } = context.main.view;
  const ahead = plan.flights.filter(({ status }) => status === "planned" || status === "firm");
  const sums = new Map<string, number>();
  let unknown = 0;
  for (const flight of ahead) {
    const classId = plan.craft.find(({ id }) => id === flight.craftId)?.classId;
    const craftClass = plan.craftClasses.find(({ id }) => id === classId);
    if (craftClass === undefined || craftClass.costPerFlight === null) unknown += 1;
    else sums.set(craftClass.costUnit, (sums.get(craftClass.costUnit) ?? 0) + craftClass.costPerFlight);
  }
  if (sums.size === 0) return null;
  const parts = [...sums].map(([unit, sum]) => `${formatNumber(sum, Number.isInteger(sum) ? 0 : 2)} ${unit}`.trim());
  const without = unknown === 0 ? "" : `; ${counted(unknown, "flight")} of them without a stated cost`;
  return `${listed(parts)} for the ${counted(ahead.length, "flight")} still to depart${without}.`;
};

/** The latest departure that comes first. */
const nextDecision = (context: ReportContext): string => {
  const { supply, view } = context.main;
  const [first] = supply.latestDeparture
    .flatMap(({ flightId, at }) => (at === null ? [] : [{ flightId, at }]))
    .toSorted((a, b) => a.at - b.at);
  if (first === undefined)
    return supply.latestDeparture.length === 0
      ? "No flight is still to depart."
      : "No flight has a latest departure before the end of the forecast.";
  const flight = view.plan.flights.find(({ id }) => id === first.flightId);
  const limits = supply.slack.filter(({ flightId, slackDays }) => flightId === first.flightId && slackDays !== "any");
  const [least] = limits.toSorted((a, b) => Number(a.slackDays) - Number(b.slackDays));
  const sortie = supply.sorties.find(({ sortieId }) => sortieId === least?.sortieId);
  const planned = flight === undefined ? "" : ` (planned ${formatDate(flight.departAt)})`;
  const later = sortie === undefined ? "a sortie" : sortie.name;
  return `${flightName(view.plan, first.flightId)} departs at the latest on ${formatMinute(first.at)}${planned}: later, ${later} fares worse.`;
};

/** Which flights no sortie can do without, one by one. */
const hingeWords = (context: ReportContext): string | null => {
  const { supply, view } = context.main;
  const parts = supply.sorties.flatMap((sortie) => {
    const hinges = supply.hinges.filter(({ sortieId }) => sortieId === sortie.sortieId);
    return [...Map.groupBy(hinges, ({ becomes }) => becomes)].map(([becomes, ofThese]) => {
      const names = ofThese.map(({ flightId }) => flightName(view.plan, flightId));
      const waits = becomes === "waits and flies" ? " (it would wait)" : "";
      return `${sortie.name} on ${names.length > 1 ? "each of " : ""}${listed(names, MAX_NAMED)}${waits}`;
    });
  });
  if (parts.length === 0) return null;
  return `${parts.join("; ")}. Without such a flight the sortie does not fly as planned.`;
};

/** Which sorties stand otherwise than in the earlier issue. */
export const movedSince = (context: ReportContext, since: EarlierIssue): readonly string[] => {
  const now = new Map(context.main.supply.sorties.map((sortie) => [sortie.sortieKey, sortie]));
  const then = new Map(since.sorties.map((sortie) => [sortie.key, sortie]));
  return [
    ...context.main.supply.sorties.flatMap(({ sortieKey, name, status }) => {
      const earlier = then.get(sortieKey);
      if (earlier === undefined) return [`${name} is new: ${status}.`];
      return earlier.status === status ? [] : [`${name} was ${earlier.status} and is ${status} now.`];
    }),
    ...since.sorties.flatMap(({ key, name }) => (now.has(key) ? [] : [`${name} is no longer planned.`])),
  ];
};

/** At most three lines. */
const changeLines = ({ since, changes, ...rest }: ReportContext): readonly string[] => {
  if (since === null) return ["This plan case was not issued before."];
  const moved = movedSince({ since, changes, ...rest }, since);
  const [last] = changes;
  const edits =
    last === undefined
      ? "Nothing was edited."
      : `${capitalised(counted(changes.length, "step"))} of editing, the last of ${formatDate(last.at)}: ${last.label}.`;
  const shown = moved.length <= MAX_LINES - 1 ? moved : moved.slice(0, MAX_LINES - 2);
  const left = moved.length - shown.length;
  return [
    ...(moved.length === 0 ? ["Every sortie stands as it did."] : shown),
    ...(left > 0 ? [`${capitalised(counted(left, "more sortie stands", "more sorties stand"))} otherwise.`] : []),
    edits,
  ];
};

export const pageOneFacts = (context: ReportContext): readonly Fact[] => {
  const { plan } = context.main.view;
  const cost = costWords(context);
  const hinges = hingeWords(context);
  const since = context.since;
  return [
    {
      term: "As of",
      text: `${formatMinute(plan.asOfAt)}; made ${formatMinute(context.issuedAt)} by ${context.author}.`,
    },
    { term: "Rests on", text: restsOn(context) },
    { term: "Next decision", text: nextDecision(context) },
    ...(hinges === null ? [] : [{ term: "Hinges on", text: hinges }]),
    ...(cost === null ? [] : [{ term: "Cost", text: cost }]),
    {
      term: since === null ? "Changed" : `Since issue ${since.number} (${formatDate(since.issuedAt)})`,
      text: changeLines(context).join("\n"),
    },
  ];
};
