/** What could be done about a short sortie, as changes of the plan; whether it helps, the forecast says. */
import type { PlanSnapshot } from "../../entity/plan.ts";
import type { Change, Entity } from "../../entity/entities.ts";
import { DAY_MS } from "../../ground/quantity.ts";
import { withReturnAlong } from "../../sortie/returns-along.ts";
import { handoverLeadMs, usualFlight, withHull } from "../../ways/added-flight.ts";
import { latestFreeArrival } from "../../ways/free-berth.ts";
import { formatInstant } from "../../format/instant.ts";
import type { Cure } from "./cure.ts";

export type Candidate = Pick<Cure, "id" | "kind" | "words" | "changes" | "caution">;
type Sortie = Entity<"sortie">;

/** At most so many sorties before and after are tried in its place. */
const MAX_SWAPPED = 4;

const putSortie = (value: Sortie): Change => ({ op: "put", kind: "sortie", value });

/** The same sortie at another loading; its time away stays. */
const movedTo = (sortie: Sortie, loadAt: number): Sortie => ({
  ...sortie,
  loadAt,
  returnAt: loadAt + sortie.returnAt - sortie.loadAt,
});

/** It waits for propellant, for as long as it takes up to the first instant at which it could load. */
const waiting = (plan: PlanSnapshot, sortie: Sortie, firstAt: number | null): readonly Candidate[] => {
  const campaign = plan.campaigns.find(({ id }) => id === sortie.campaignId);
  if (campaign === undefined || firstAt === null) return [];
  const days = Math.ceil((firstAt - sortie.loadAt) / DAY_MS);
  const isLonger = days > campaign.holdLimitDays;
  const isOther = plan.planCase.shortPolicy !== "wait";
  if (!isLonger && !isOther) return [];
  return [
    {
      id: "wait",
      kind: "wait",
      words: [
        ...(isOther ? ["Short sorties of this case wait instead of standing down"] : []),
        ...(isLonger ? [`${isOther ? "and" : "Sorties"} of ${campaign.name} may wait up to ${String(days)} days`] : []),
      ]
        .join(", ")
        .concat("."),
      changes: [
        ...(isOther
          ? [{ op: "put", kind: "planCase", value: { ...plan.planCase, shortPolicy: "wait" } } satisfies Change]
          : []),
        ...(isLonger
          ? [{ op: "put", kind: "campaign", value: { ...campaign, holdLimitDays: days } } satisfies Change]
          : []),
      ],
      caution: null,
    },
  ];
};

const moving = (sortie: Sortie, firstAt: number | null): readonly Candidate[] =>
  firstAt === null
    ? []
    : [
        {
          id: "move",
          kind: "move",
          words: `${sortie.name} loads on ${formatInstant(firstAt)} instead of ${formatInstant(sortie.loadAt)}.`,
          changes: [putSortie(movedTo(sortie, firstAt))],
          caution: null,
        },
      ];

const otherWays = (plan: PlanSnapshot, sortie: Sortie): readonly Candidate[] => {
  const classId = plan.craft.find(({ id }) => id === sortie.landerId)?.classId;
  const { demand } = sortie;
  const isByProfile = demand.kind === "profile";
  const rows = { craft: plan.craft, craftClass: plan.craftClasses, profile: plan.profiles };
  return plan.profiles
    .filter((profile) => profile.classId === classId && !(isByProfile && demand.profileId === profile.id))
    .map((profile) => {
      const carried = isByProfile
        ? { cargoDownKg: demand.cargoDownKg, cargoUpKg: demand.cargoUpKg, crew: demand.crew }
        : { cargoDownKg: 0, cargoUpKg: 0, crew: 0 };
      const flown: Sortie = { ...sortie, demand: { kind: "profile", profileId: profile.id, ...carried } };
      return {
        id: `way ${profile.id}`,
        kind: "other way",
        words: `${sortie.name} flies by ${profile.name}.`,
        changes: [putSortie(withReturnAlong(rows, sortie, rows, flown))],
        caution: isByProfile ? null : "No cargo and no crew are stated for this sortie: computed without either.",
      };
    });
};

/** A hull of the class with nothing else to do in a stretch of time; null: none. */
const freeHull = (plan: PlanSnapshot, tanker: Entity<"craftClass">, fromAt: number, untilAt: number): string | null => {
  const turnMs = tanker.turnaroundDays * DAY_MS;
  const isBusy = (craftId: string): boolean =>
    plan.flights.some(
      (flight) =>
        flight.craftId === craftId &&
        flight.status !== "cancelled" &&
        (flight.status === "lost" ||
          (flight.departAt < untilAt + turnMs && flight.arriveAt + flight.berthDays * DAY_MS + turnMs > fromAt)),
    );
  return plan.craft.find(({ id, classId }) => classId === tanker.id && !isBusy(id))?.id ?? null;
};

/** One usual flight of each class, as late as handover and ports allow: it has lost the least then. */
const moreFlights = (plan: PlanSnapshot, sortie: Sortie): readonly Candidate[] =>
  plan.craftClasses
    .filter(({ role, propellants }) => role === "tanker" && propellants.some(({ loadKg }) => loadKg > 0))
    .flatMap((tanker): readonly Candidate[] => {
      const firstAt = Math.ceil(plan.asOfAt + tanker.tripDays * DAY_MS);
      const limitAt = sortie.loadAt - handoverLeadMs(tanker);
      const arriveAt = latestFreeArrival(plan, sortie.depotId, tanker.berthDays, firstAt, limitAt);
      if (arriveAt === null || plan.sources.length === 0) return [];
      const made = withHull(plan, tanker);
      const departAt = arriveAt - tanker.tripDays * DAY_MS;
      const hullId = freeHull(plan, tanker, departAt, arriveAt + tanker.berthDays * DAY_MS);
      const flight = usualFlight(plan, tanker, hullId ?? made.hullId, sortie.depotId, arriveAt);
      const hull = hullId === null ? made.plan.craft.find(({ id }) => id === made.hullId) : undefined;
      return [
        {
          id: `flight ${tanker.id}`,
          kind: "one more flight",
          words: `One more ${tanker.name} arrives on ${formatInstant(arriveAt)}${
            hull === undefined ? "" : ", with one more hull, as all are under way then"
          }.`,
          changes: [
            ...(hull === undefined ? [] : [{ op: "put", kind: "craft", value: hull } satisfies Change]),
            { op: "put", kind: "flight", value: flight },
          ],
          caution: null,
        },
      ];
    });

/** It changes places with another planned sortie from the same depot. */
const otherOrders = (plan: PlanSnapshot, sortie: Sortie): readonly Candidate[] => {
  const others = plan.sorties
    .filter(({ id, depotId, status, loadAt }) => {
      const isOther = id !== sortie.id && depotId === sortie.depotId && status === "planned";
      return isOther && loadAt !== sortie.loadAt && loadAt >= plan.asOfAt;
    })
    .toSorted((a, b) => Math.abs(a.loadAt - sortie.loadAt) - Math.abs(b.loadAt - sortie.loadAt));
  return others.slice(0, 2 * MAX_SWAPPED).map((other) => ({
    id: `order ${other.id}`,
    kind: "other order",
    words: `${sortie.name} and ${other.name} change places.`,
    changes: [putSortie(movedTo(sortie, other.loadAt)), putSortie(movedTo(other, sortie.loadAt))],
    caution: null,
  }));
};

/** Everything that could be tried. `firstAt`: when the sortie could load if it alone were moved; null: at no time. */
export const candidates = (plan: PlanSnapshot, sortie: Sortie, firstAt: number | null): readonly Candidate[] => [
  ...waiting(plan, sortie, firstAt),
  ...moving(sortie, firstAt),
  ...otherWays(plan, sortie),
  ...moreFlights(plan, sortie),
  ...otherOrders(plan, sortie),
];
