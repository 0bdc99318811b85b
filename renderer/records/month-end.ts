/** What a month's end is looked at for: records that are missing, and how far a measured level lies from the books. Pure. */
import { levelAt } from "../../app/forecast/curve.ts";
import { forecast } from "../../app/forecast/forecast.ts";
import type { Forecast } from "../../app/forecast/outcome.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { formatInstant } from "../format/instant.ts";
import { formatMass, formatMassChange } from "../format/mass.ts";
import { formatNumber } from "../format/number.ts";
import type { Selection } from "../state/app-state.ts";
import type { CaseForecast } from "../state/case-forecast.ts";

/** Beyond so many standard uncertainties a difference is not explained by the gauge. */
export const UNEXPLAINED_SIGMAS = 3;

export interface MissingRecord {
  readonly subject: Selection;
  /** The record that is missing. */
  readonly action: "record.departure" | "record.arrival" | "record.loading" | "record.return";
  readonly sentence: string;
}

/** Events of a depot that were to come by an instant, and of which no record says that they did; the earliest first. */
export const missingRecords = (
  { plan }: Pick<CaseForecast, "plan">,
  depotId: string,
  untilAt: number,
): readonly MissingRecord[] => {
  const found: (MissingRecord & { readonly at: number })[] = [];
  const add = (at: number, name: string, event: string, record: Omit<MissingRecord, "sentence">): void => {
    if (at <= untilAt) found.push({ ...record, at, sentence: `${name} was to ${event} on ${formatInstant(at)}` });
  };
  for (const { id, name, status, origin, depotId: toId, departAt, arriveAt } of plan.flights) {
    const subject: Selection = { kind: "flight", id };
    const isFromHere = origin.kind === "depot" && origin.depotId === depotId;
    if (toId !== depotId && !isFromHere) continue;
    if (status === "departed") add(arriveAt, name, "arrive", { subject, action: "record.arrival" });
    if (status === "planned" || status === "firm")
      add(departAt, name, "depart", { subject, action: "record.departure" });
  }
  for (const { id, name, status, depotId: atId, loadAt, returnAt } of plan.sorties) {
    const subject: Selection = { kind: "sortie", id };
    if (atId !== depotId) continue;
    if (status === "planned") add(loadAt, name, "load", { subject, action: "record.loading" });
    if (status === "departed") add(returnAt, name, "return", { subject, action: "record.return" });
  }
  return found.toSorted((a, b) => a.at - b.at).map(({ subject, action, sentence }) => ({ subject, action, sentence }));
};

const alone = new WeakMap<PlanSnapshot, Forecast>();

/** The tanks as the books and the loss model carry them on: nothing comes or goes that has no record. */
const booksAlone = (plan: PlanSnapshot): Forecast => {
  const known =
    alone.get(plan) ??
    forecast({
      ...plan,
      flights: plan.flights.filter(({ status }) => status === "arrived" || status === "lost" || status === "cancelled"),
      sorties: plan.sorties.filter(({ status }) => status !== "planned" && status !== "departed"),
    });
  alone.set(plan, known);
  return known;
};

/** Level of a tank at an instant by the books, after all that is recorded then, with the boil-off of the loss model, kg. */
export const bookLevel = ({ plan, view }: CaseForecast, tankId: string, at: number): number => {
  const past = view.past.find((history) => history.tankId === tankId);
  if (at < plan.asOfAt && past !== undefined) return levelAt(past.segments, at);
  return levelAt(booksAlone(plan).levels.find((level) => level.tankId === tankId)?.segments ?? [], at);
};

/** "by the books 8.91 t then" */
export const bookWords = (current: CaseForecast, tankId: string, at: number): string =>
  `by the books ${formatMass(bookLevel(current, tankId, at))} then`;

/** How many standard uncertainties a level lies from the books; null where no uncertainty is stated. */
export const sigmasOff = (massKg: number, bookKg: number, sigmaKg: number | null): number | null =>
  sigmaKg === null || !(sigmaKg > 0) ? null : (massKg - bookKg) / sigmaKg;

/** "+12 kg, 0.4 σ": how a level compares with the books. */
export const differenceWords = (massKg: number, bookKg: number, sigmaKg: number | null): string => {
  const sigmas = sigmasOff(massKg, bookKg, sigmaKg);
  const difference = formatMassChange(massKg - bookKg);
  return sigmas === null ? difference : `${difference}, ${formatNumber(Math.abs(sigmas), 1)}\u202fσ`;
};

/** A question where the difference is not explained by the gauge; null: it is. */
export const unexplainedWords = (massKg: number, bookKg: number, sigmaKg: number | null): string | null => {
  const sigmas = sigmasOff(massKg, bookKg, sigmaKg);
  if (sigmas === null || Math.abs(sigmas) <= UNEXPLAINED_SIGMAS) return null;
  return `${differenceWords(massKg, bookKg, sigmaKg)}: not explained by the gauge. A missing record, a leak, or a wrong reading?`;
};
