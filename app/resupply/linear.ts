/** A linear programme and what solves it. The solver is handed in, for this folder loads none. */

/** Minimise offset + cost·x with rowLower ≤ A·x ≤ rowUpper and lower ≤ x ≤ upper; A by rows, compressed. */
export interface LinearProgramme {
  readonly offset: number;
  readonly cost: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly rowLower: Float64Array;
  readonly rowUpper: Float64Array;
  readonly starts: Int32Array;
  readonly columns: Int32Array;
  readonly values: Float64Array;
}

export interface LinearAnswer {
  readonly status: "optimal" | "infeasible" | "other";
  readonly objective: number;
  readonly x: Float64Array;
  /** By row: change of the objective with its right-hand side. */
  readonly duals: Float64Array;
}

export type SolveLinear = (programme: LinearProgramme) => LinearAnswer;

/** Collects rows of a programme. */
export const rowList = () => {
  const starts: number[] = [0];
  const columns: number[] = [];
  const values: number[] = [];
  const lower: number[] = [];
  const upper: number[] = [];
  return {
    put: (column: number, value: number): void => {
      if (value === 0) return;
      columns.push(column);
      values.push(value);
    },
    end: (least: number, most: number): void => {
      starts.push(columns.length);
      lower.push(least);
      upper.push(most);
    },
    count: (): number => lower.length,
    done: () => ({
      rowLower: Float64Array.from(lower),
      rowUpper: Float64Array.from(upper),
      starts: Int32Array.from(starts),
      columns: Int32Array.from(columns),
      values: Float64Array.from(values),
    }),
  };
};
