/** What a plan has that can be varied: every input that would do something, with its words, limits and values to begin with. */
import type { PlanSnapshot } from "../entity/plan.ts";
import { PlanningError } from "../ground/failure.ts";
import type { InputAsked, StudyQuantity, ValuesAsked } from "./question.ts";
import { varied } from "./resolve.ts";
import type { Varied } from "./varied.ts";

export interface InputOffer {
  /** Unique in a plan. */
  readonly id: string;
  readonly quantity: StudyQuantity;
  /** Of what: "Tarn hydrogen"; the quantity has one only: "". */
  readonly subject: string;
  readonly input: InputAsked;
  readonly unit: string;
  readonly today: number | null;
  readonly least: number;
  readonly most: number;
  readonly isWhole: boolean;
  readonly isForRisk: boolean;
}

type Bare = InputAsked extends infer I ? (I extends InputAsked ? Omit<I, "values"> : never) : never;

const some: ValuesAsked = { kind: "list", list: [1] };

const day = (at: number): string => new Date(at).toISOString().slice(0, 10);

/** All that could be asked, whether it does something or not. */
const candidates = (plan: PlanSnapshot): readonly { readonly subject: string; readonly bare: Bare }[] => {
  const tanks = plan.tanks.filter(({ ownerKind }) => ownerKind === "depot");
  const classes = plan.craftClasses.filter(({ role }) => role === "tanker");
  const ofTanks = (make: (tank: string) => Bare) => tanks.map(({ id, name }) => ({ subject: name, bare: make(id) }));
  const ofClasses = (make: (tanker: string) => Bare) =>
    classes.map(({ id, name }) => ({ subject: name, bare: make(id) }));
  const nameOf = (id: string): string => plan.propellants.find((row) => row.id === id)?.name ?? id;
  // The day after, so that it lies within the forecast whatever the hour.
  const outageFrom = day(plan.asOfAt + 86_400_000);
  return [
    ...(tanks.length > 1 ? [{ subject: "every depot tank", bare: { quantity: "loss factor" as const } }] : []),
    ...ofTanks((tank) => ({ quantity: "loss factor", tank })),
    ...ofTanks((tank) => ({ quantity: "loss rate", tank })),
    ...ofTanks((tank) => ({ quantity: "cooler outage", tank, from: outageFrom })),
    ...ofTanks((tank) => ({ quantity: "tank size", tank })),
    ...ofTanks((tank) => ({ quantity: "reserve", tank })),
    ...classes.flatMap((row) =>
      row.propellants.map(({ propellantId }) => ({
        subject: `${row.name}, ${nameOf(propellantId)}`,
        bare: { quantity: "payload" as const, class: row.id, propellant: propellantId },
      })),
    ),
    ...ofClasses((tanker) => ({ quantity: "transit", class: tanker })),
    ...(classes.length > 1 ? [{ subject: "every tanker", bare: { quantity: "flight delay" as const } }] : []),
    ...ofClasses((tanker) => ({ quantity: "flight delay", class: tanker })),
    ...ofClasses((tanker) => ({ quantity: "cadence", class: tanker })),
    ...(["first", "last"] as const).flatMap((which) =>
      classes.map(({ id, name }) => ({
        subject: `${name}, the ${which} ones`,
        bare: { quantity: "flights left out" as const, class: id, which },
      })),
    ),
    { subject: "every sortie", bare: { quantity: "cargo" } },
    ...plan.sorties
      .filter(({ demand, status }) => demand.kind === "profile" && status === "planned")
      .map(({ id, name }) => ({ subject: name, bare: { quantity: "cargo" as const, sortie: id } })),
    { subject: "", bare: { quantity: "sortie cadence" } },
    ...ofClasses((tanker) => ({ quantity: "reliability", class: tanker })),
    ...ofClasses((tanker) => ({ quantity: "slip", class: tanker })),
  ];
};

/** What an input is of, whatever its values: two of the same are one input varied twice. */
export const inputId = (input: InputAsked): string =>
  Object.entries(input)
    .filter(([key]) => key !== "values" && key !== "from")
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, value]) => `${key}=${JSON.stringify(value)}`)
    .join(" ");

const COUNT = 11;

/** A range for the eye, of about two figures. */
const tidy = (value: number): number => Number(value.toPrecision(2));

const usualRange: Partial<Readonly<Record<StudyQuantity, readonly [number, number]>>> = {
  "loss factor": [0, 3],
  "cooler outage": [0, 30],
  transit: [2, 12],
  "flight delay": [0, 60],
  cadence: [10, 90],
  "sortie cadence": [30, 180],
  reliability: [0.9, 1],
  slip: [0, 30],
};

const MAX_LEFT_OUT = 6;

/** Values to begin with: around those of today, within what can be. */
const usualValues = (quantity: StudyQuantity, { today, least, most }: Varied): ValuesAsked => {
  if (quantity === "flights left out")
    return { kind: "list", list: Array.from({ length: Math.min(most, MAX_LEFT_OUT) + 1 }, (_, n) => n) };
  const [from, to] = usualRange[quantity] ?? [tidy((today ?? 1) * 0.5), tidy((today ?? 1) * 1.5)];
  const low = Math.min(most, Math.max(least, from));
  const high = Math.min(most, Math.max(least, to));
  if (low < high) return { kind: "range", from: low, to: high, count: COUNT };
  return { kind: "range", from: least, to: Math.min(most, least + 1), count: COUNT };
};

/** The input of this plan; null: the plan does not have it, or it would do nothing. */
export const offerOf = (plan: PlanSnapshot, input: InputAsked, subject: string): InputOffer | null => {
  try {
    const row = varied(plan, input, "inputs", { asksResupply: false });
    if (!(row.least < row.most)) return null;
    return {
      id: inputId(input),
      quantity: input.quantity,
      subject,
      input: { ...input, values: usualValues(input.quantity, row) },
      unit: row.unit,
      today: row.today,
      least: row.least,
      most: row.most,
      isWhole: row.isWhole ?? false,
      isForRisk: row.isForRisk ?? false,
    };
  } catch (error) {
    if (error instanceof PlanningError && error.code !== "defect") return null;
    throw error;
  }
};

/** In the order in which they are offered. Pure. */
export const inputOffers = (plan: PlanSnapshot): readonly InputOffer[] =>
  candidates(plan).flatMap(({ subject, bare }) => offerOf(plan, { ...bare, values: some }, subject) ?? []);
