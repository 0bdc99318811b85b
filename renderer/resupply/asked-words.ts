/** What is asked of the search, in one sentence. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { ResupplyAsked } from "../../app/resupply/asked.ts";
import { formatInstant } from "../format/instant.ts";
import { formatMass } from "../format/mass.ts";
import { formatNumber, formatPercent } from "../format/number.ts";
import { costUnitOf } from "../names/cost-unit.ts";
import { counted } from "../../app/words/counted.ts";
import { nameIn } from "../../app/words/named.ts";

const least = {
  flights: "the fewest flights",
  cost: "the least cost",
  loss: "the fewest flights, and of these the least losses",
} as const;

/** "Every sortie supplied; flown by Drover or Packhorse at the depot’s windows and before loadings; the fewest flights." */
export const askedWords = (plan: PlanSnapshot, asked: ResupplyAsked): string => {
  const { classes, arrivals, lost } = asked;
  const names = plan.craftClasses
    .filter(({ role, id }) => role === "tanker" && (classes.length === 0 || classes.some((row) => row.classId === id)))
    .map(({ name }) => name);
  const until = asked.untilAt === null ? "" : ` that loads until ${formatInstant(asked.untilAt)}`;
  const robust = lost === 0 ? "" : lost === 1 ? ", with any one flight lost" : ", with any two flights lost";
  const when =
    arrivals.kind === "every"
      ? `every ${formatNumber(arrivals.days, 2)} days`
      : arrivals.kind === "list"
        ? "at listed instants"
        : "at the depot’s windows";
  const named = (propellantId: string): string => nameIn(plan.propellants, propellantId).toLowerCase();
  const margins = asked.margins.filter(({ massKg }) => massKg > 0);
  const limits = [
    ...classes.flatMap(({ classId, everyDays }) =>
      everyDays === null ? [] : [`${nameIn(plan.craftClasses, classId)} every ${formatNumber(everyDays, 2)} days`],
    ),
    ...margins.map(({ propellantId, massKg }) => `${formatMass(massKg)} of ${named(propellantId)} above the reserve`),
    ...(asked.chance === null ? [] : [`all fly when planned with at least ${formatPercent(asked.chance * 100, 1)}`]),
    ...(asked.mostFlights === null ? [] : [`at most ${formatNumber(asked.mostFlights)} flights`]),
    ...(asked.budget === null
      ? []
      : [`a budget of ${formatNumber(asked.budget)}${costUnitOf(plan) === "" ? "" : ` ${costUnitOf(plan)}`}`]),
    ...(asked.blackouts.length === 0
      ? []
      : [
          `${formatNumber(asked.blackouts.length)} ${asked.blackouts.length === 1 ? "time" : "times"} without arrivals`,
        ]),
    ...(asked.moveSortiesDays === 0
      ? []
      : [`sorties may move by up to ${counted(asked.moveSortiesDays, "day", "days")}`]),
    ...(asked.betweenDepots === null
      ? []
      : [`flights between depots too, in ${formatNumber(asked.betweenDepots.tripDays, 2)} days`]),
    ...(asked.mayReplace ? ["planned flights may be left out"] : []),
  ];
  return [
    `Every sortie${until} ${asked.goal === "supplied" ? "supplied" : "fuelled"}${robust}`,
    `${names.length === 0 ? "no tanker yet" : names.join(" or ")}, arriving ${when}${asked.isBeforeLoadings ? " and just before loadings" : ""}`,
    ...limits,
    least[asked.least],
  ]
    .join("; ")
    .concat(".");
};
