/** Where the points of a study lie: point by number, so that any part of a study can be run by itself. */
import { missingCase } from "../ground/missing-case.ts";
import type { DesignAsked, StudyAsked, ValuesAsked } from "./question.ts";
import { sobolCoordinate } from "./sobol-sequence.ts";
import { gridCount, gridValue, valueAt } from "./values.ts";

export interface Design {
  readonly points: number;
  /** Values of a point (from 0), in the order of the inputs. */
  valuesOf(point: number): readonly number[];
}

const gridOf = (inputs: readonly Named[]): Design => {
  const counts = inputs.map(({ values, what, field }) => gridCount(values, what, field));
  return {
    points: counts.reduce((product, count) => product * count, 1),
    valuesOf: (point) => {
      const at: number[] = [];
      let rest = point;
      for (let input = inputs.length - 1; input >= 0; input -= 1) {
        const count = counts[input] as number;
        at[input] = gridValue((inputs[input] as Named).values, rest % count, count);
        rest = Math.floor(rest / count);
      }
      return at;
    },
  };
};

interface Named {
  readonly values: ValuesAsked;
  readonly what: string;
  readonly field: string;
}

/**
 * The points of the estimators of first-order and total indices: for each of `base` rows the point of A, that of B, and
 * for each input A with that one coordinate of B. A and B are the two halves of one sequence of twice the dimensions (A.
 * Saltelli et al., Comput. Phys. Commun. 181 (2010) 259). Its first point, the origin, stands in both and is left out.
 */
const whatMatters = (inputs: readonly Named[], base: number): Design => {
  const d = inputs.length;
  const width = d + 2;
  return {
    points: base * width,
    valuesOf: (point) => {
      const row = Math.floor(point / width) + 1;
      const which = point % width;
      return inputs.map(({ values }, input) => {
        const isOfB = which === 1 || which === input + 2;
        return valueAt(values, sobolCoordinate(row, isOfB ? input + d : input));
      });
    },
  };
};

/** Throws "invalid input" where a grid cannot be made of the values. */
export const designOf = (asked: Pick<StudyAsked, "inputs" | "design">): Design => {
  const inputs = asked.inputs.map(({ quantity, values }, n) => ({
    values,
    what: quantity,
    field: `inputs.${n}.values`,
  }));
  const { design }: { readonly design: DesignAsked } = asked;
  switch (design.kind) {
    case "grid":
      return gridOf(inputs);
    case "sobol": {
      // In the middle of its cell no point lies at the very end of a distribution; the evenness is the same.
      const half = 0.5 / 2 ** Math.ceil(Math.log2(design.points));
      return {
        points: design.points,
        valuesOf: (point) => inputs.map(({ values }, input) => valueAt(values, sobolCoordinate(point, input) + half)),
      };
    }
    case "what matters":
      return whatMatters(inputs, design.base);
    default:
      return missingCase(design);
  }
};
