/** The edge: the value of one input at which a sortie stops being supplied, by bisection on the exact forecast. */
import type { PlanSnapshot } from "../entity/plan.ts";
import { PlanningError } from "../ground/failure.ts";
import type { InputAsked } from "./question.ts";
import { prepareStudy } from "./study.ts";
import { rowNamed } from "./varied.ts";

export interface EdgeAsked {
  /** One input, by a range or list: between its least and its greatest value is looked. */
  readonly input: InputAsked;
  /** By name or id. */
  readonly sortie: string;
  /** The edge lies within so much of the value given; in the unit of the input. */
  readonly tolerance: number;
}

/** Between two neighbouring values the sortie turns from supplied to not, or back. */
export interface Crossing {
  /** The last value looked at on the side of the lower values, and the first on that of the higher; at most the tolerance apart. */
  readonly below: number;
  readonly above: number;
  /** What happens on the way up. */
  readonly turns: "not supplied" | "supplied";
}

export interface EdgeAnswer {
  readonly words: string;
  readonly unit: string;
  readonly sortieId: string;
  readonly sortieName: string;
  readonly least: number;
  readonly most: number;
  readonly today: number | null;
  /** Whether it is supplied at the least value. */
  readonly isSuppliedAtLeast: boolean;
  /** In rising order; none: the same all the way, as far as was looked. */
  readonly crossings: readonly Crossing[];
  /** One crossing at most: on one side of it supplied, on the other not. */
  readonly isMonotone: boolean;
  /** It was looked at so many values at equal steps: an exception narrower than a step may be missed. */
  readonly scanned: number;
  readonly tolerance: number;
}

/** Values at equal steps before the bisection: they show whether more than one edge is there. */
const SCANNED = 129;
const MAX_HALVINGS = 200;

const rangeOf = (input: InputAsked): { readonly least: number; readonly most: number } => {
  const { values } = input;
  if (values.kind === "range") return { least: values.from, most: values.to };
  if (values.kind === "list") return { least: Math.min(...values.list), most: Math.max(...values.list) };
  throw new PlanningError(
    "invalid input",
    "An edge is looked for between two values: give a range or a list, not a distribution.",
    "inputs.0.values",
  );
};

/** Throws "invalid input", "not found" or "refused" in words. Pure. */
export const findEdge = (plan: PlanSnapshot, asked: EdgeAsked): EdgeAnswer => {
  const { least, most } = rangeOf(asked.input);
  if (!(least < most))
    throw new PlanningError(
      "invalid input",
      "An edge is looked for between two values that differ.",
      "inputs.0.values",
    );
  if (!(asked.tolerance > 0))
    throw new PlanningError("invalid input", "The tolerance of an edge is above 0.", "tolerance");
  const study = prepareStudy({
    plan,
    readings: [],
    asked: {
      name: "edge",
      inputs: [{ ...asked.input, values: { kind: "list", list: [least, most] } }],
      design: { kind: "grid" },
      ask: [{ kind: "supply", each: true }],
    },
  });
  const [input] = study.inputs;
  if (input === undefined) throw new Error("an edge without an input");
  if (input.isWhole === true)
    throw new PlanningError(
      "invalid input",
      `The number of ${input.words} is whole: ask a grid of its values.`,
      "inputs.0",
    );
  const known = study.columns.flatMap(({ sortieId }) => sortieId ?? []);
  const ahead = plan.sorties.filter(({ id }) => known.includes(id));
  const sortie = rowNamed(ahead, asked.sortie, "sortie ahead", "sortie");
  const column = study.columns.findIndex(({ sortieId }) => sortieId === sortie.id);
  const isSupplied = (value: number): boolean => study.rowOf([value])[column] === "supplied";

  const valueAt = (step: number): number =>
    step === SCANNED - 1 ? most : least + ((most - least) * step) / (SCANNED - 1);
  const seen = Array.from({ length: SCANNED }, (_, step) => isSupplied(valueAt(step)));
  const crossings: Crossing[] = [];
  for (let step = 1; step < SCANNED; step += 1) {
    const before = seen[step - 1] as boolean;
    if (before === seen[step]) continue;
    let below = valueAt(step - 1);
    let above = valueAt(step);
    for (let n = 0; above - below > asked.tolerance && n < MAX_HALVINGS; n += 1) {
      const middle = below + (above - below) / 2;
      // Nearer than two numbers can lie there is nothing more to find.
      if (middle <= below || middle >= above) break;
      if (isSupplied(middle) === before) below = middle;
      else above = middle;
    }
    crossings.push({ below, above, turns: before ? "not supplied" : "supplied" });
  }
  return {
    words: input.words,
    unit: input.unit,
    sortieId: sortie.id,
    sortieName: sortie.name,
    least,
    most,
    today: input.today,
    isSuppliedAtLeast: seen[0] as boolean,
    crossings,
    isMonotone: crossings.length < 2,
    scanned: SCANNED,
    tolerance: asked.tolerance,
  };
};
