/** What ways by different vehicles take from the ground, and from how many sorties on one takes less, in words. */
import { counted, listed } from "../words/counted.ts";
import { formatMass, type MassUnit } from "../format/mass.ts";
import { formatNumber, formatPercent } from "../format/number.ts";
import type { BreakEven, Moved } from "./break-even.ts";
import { VARIED_SHARE } from "./break-even.ts";
import type { LiftedBy, WayLifted } from "./lifted.ts";

/** The first whole number of sorties from which on the other way takes less. */
export const wholeSorties = (sorties: number): number => Math.floor(sorties + 1e-9) + 1;

/** "From 9 sorties on Heron takes less from the ground than Wren (break-even 8.3)." */
export const breakEvenSentence = (a: WayLifted, b: WayLifted, found: BreakEven, unit: MassUnit = "auto"): string => {
  if (found.kind === "never") {
    if (found.less === null)
      return `${a.way.name} and ${b.way.name} take the same from the ground, however many sorties.`;
    const [less, more] = found.less === "a" ? [a, b] : [b, a];
    const saved = formatMass(more.each.totalKg - less.each.totalKg, unit);
    return `${less.way.name} takes less from the ground than ${more.way.name} from the first sortie on, however many there are; each further one saves ${saved}.`;
  }
  const [early, late] = found.early === "a" ? [a, b] : [b, a];
  const saved = formatMass(early.each.totalKg - late.each.totalKg, unit);
  return `From ${counted(wholeSorties(found.sorties), "sortie")} on ${late.way.name} takes less from the ground than ${early.way.name}: break-even at ${formatNumber(found.sorties, 1)}; each further sortie saves ${saved}.`;
};

const end = (value: Moved["withLess"]): string => {
  if (value === null) return "none";
  return value === "not flown" ? "cannot be flown" : formatNumber(value, 1);
};

/** "The break-even hangs most on dry mass of Heron: 2 % less gives 7.1, 2 % more 9.8." Empty where nothing moves it. */
export const movesMostSentence = ([most]: readonly Moved[]): string => {
  if (most === undefined) return "";
  const share = formatPercent(VARIED_SHARE * 100, 0);
  return `The break-even hangs most on ${most.name}: ${share} less gives ${end(most.withLess)}, ${share} more ${end(most.withMore)}.`;
};

/** "what a sortie loads comes to Tarn evenly over 114 days, …": how boil-off at the depot is counted, or that it is not. */
const waitingNote = ({ waiting, propellants }: Pick<LiftedBy, "waiting" | "propellants">): string => {
  if (waiting === null)
    return "boil-off at the depot is not counted: fewer than two sorties are planned, so the days between them are not known";
  const rates = waiting.lines.flatMap(({ propellantId, kPerDay, cKgPerDay }) => {
    const parts = [
      ...(cKgPerDay > 0 ? [`${formatNumber(cKgPerDay, 1)} kg`] : []),
      // The share lost in one day, compound, as it is stated everywhere.
      ...(kPerDay > 0 ? [formatPercent(-Math.expm1(-kPerDay) * 100, 3)] : []),
    ];
    const name = propellants.find(({ id }) => id === propellantId)?.name.toLowerCase() ?? propellantId;
    return parts.length === 0 ? [] : [`${name} ${parts.join(" and ")}`];
  });
  const lost =
    rates.length === 0 ? "no loss of its tanks is stated" : `meanwhile its tanks lose a day: ${listed(rates)}`;
  return `what a sortie loads comes to ${waiting.depotName} evenly over the ${formatNumber(waiting.days)} days from one loading to the next; ${lost} (mean of the rates stated for the planned sorties); what other stock there loses is not counted`;
};

/** What stands with the figures wherever they are shown. */
export const liftedNotes = (by: Pick<LiftedBy, "waiting" | "propellants">): readonly string[] => [
  waitingNote(by),
  "counted as loaded on the craft that flies to the depot; what throws it to the Moon is in no way",
  "cargo and crew are the same by every way and not counted",
  "no loss in loading a lander or aboard a docked one, no engine change",
];
