/** Types of the integrator `odex`, which ships its source but no declarations; tsconfig.json points the compiler here. */

/** y' at x. */
export type Derivative = (x: number, y: readonly number[]) => number[];

/** Called after each accepted step from xOld to x; `dense` reads component i anywhere in between. `false` ends the run. */
export type StepObserver = (
  step: number,
  xOld: number,
  x: number,
  y: readonly number[],
  dense: (component: number, at: number) => number,
) => boolean | void;

/** What a run ended with; `outcome` 0: reached the end, 1: too many steps, 2: ended by the observer. */
export interface Run {
  readonly y: readonly number[];
  readonly outcome: 0 | 1 | 2;
  readonly nEval: number;
}

export declare class Solver {
  constructor(dimension: number);
  denseOutput: boolean;
  relativeTolerance: number;
  absoluteTolerance: number | number[];
  initialStepSize: number;
  maxStepSize: number;
  maxSteps: number;
  solve(f: Derivative, x0: number, y0: readonly number[], xEnd: number, observe?: StepObserver): Run;
}
