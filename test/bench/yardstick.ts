/**
 * The yardstick of the risk: the least that a replication can be. One tank a propellant, deliveries at once, sorties that
 * load whole or stand down, rates that change; slips, losses and rate factors drawn; nothing else. It stands alone, on
 * four arrays, so that figures of different machines can be told in its time.
 */
import { type CompiledPlan, EVENT } from "../../app/forecast/compiled-plan.ts";

const DAY_MS = 86_400_000;

export interface YardstickLaws {
  readonly noneShare: number;
  readonly meanSlipMs: number;
  readonly lossShare: number;
  readonly factorSigma: number;
}

/** Flat copies of what is needed of a plan; `run(n)` makes n replications and returns how often sorties flew. */
export const createYardstick = (plan: CompiledPlan, deliverableKg: Float64Array, laws: YardstickLaws) => {
  const tanks = plan.poolSoleTank.length;
  const events = [...plan.eventKind.keys()].filter((e) =>
    [EVENT.arrival, EVENT.load, EVENT.rate].includes(plan.eventKind[e] as 2),
  );
  const n = events.length;
  // Four arrays: what is fixed of an event, its instant in a run, the order of a run, and the state of the tanks.
  const WIDTH = 3 + 2 * tanks;
  const fixed = new Float64Array(n * WIDTH);
  events.forEach((e, row) => {
    const kind = plan.eventKind[e] as number;
    const index = plan.eventIndex[e] as number;
    const from = row * WIDTH;
    fixed[from] = plan.eventAt[e] as number;
    fixed[from + 1] = kind;
    fixed[from + 2] = kind === EVENT.rate ? (plan.rateTank[index] as number) : index;
    if (kind === EVENT.rate) fixed[from + 3] = plan.rateK[index] as number;
    if (kind === EVENT.arrival)
      for (
        let line = plan.flightLineStart[index] as number;
        line < (plan.flightLineStart[index + 1] as number);
        line += 1
      )
        fixed[from + 3 + (plan.lineTank[line] as number)] = deliverableKg[line] as number;
    if (kind === EVENT.load)
      for (
        let need = plan.sortieLineStart[index] as number;
        need < (plan.sortieLineStart[index + 1] as number);
        need += 1
      ) {
        const tank = plan.poolSoleTank[plan.needPool[need] as number] as number;
        fixed[from + 3 + tank] =
          (plan.needChillKg[need] as number) + (plan.needLoadKg[need] as number) / (plan.needKeep[need] as number);
      }
  });
  const at = new Float64Array(n);
  const order = new Int32Array(n);
  /** Of a tank: level, its instant, k, maximum, heel, k of the plan, level of the plan. */
  const state = new Float64Array(tanks * 7);
  for (let tank = 0; tank < tanks; tank += 1)
    state.set(
      [
        0,
        0,
        0,
        plan.tankMaximumKg[tank] as number,
        plan.tankHeelKg[tank] as number,
        plan.tankK[tank] as number,
        plan.tankOpeningKg[tank] as number,
      ],
      tank * 7,
    );

  let a = 0x9e37_79b9;
  let b = 0x243f_6a88;
  let c = 0xb7e1_5162;
  let d = 1;
  const unit = (): number => {
    const t = (((a + b) | 0) + d) | 0;
    d = (d + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + t) | 0;
    return ((t >>> 0) + 0.5) * 2 ** -32;
  };

  const advance = (row: number, now: number): number => {
    const level = state[row] as number;
    const days = (now - (state[row + 1] as number)) / DAY_MS;
    state[row + 1] = now;
    const x = (state[row + 2] as number) * days;
    if (x === 0) return level;
    const x2 = x * x;
    const phi =
      x < 1 / 32 ? 1 - x * (1 / 2) + x2 * (1 / 6 - x * (1 / 24) + x2 * (1 / 120 - x * (1 / 720))) : -Math.expm1(-x) / x;
    return level - level * x * phi;
  };

  const factors = new Float64Array(tanks);
  const draw = (): void => {
    for (let tank = 0; tank < tanks; tank += 1) {
      // Twelve uniform numbers are near enough to normal for a yardstick.
      let z = -6;
      for (let i = 0; i < 12; i += 1) z += unit();
      factors[tank] = Math.exp(laws.factorSigma * z);
    }
    for (let row = 0; row < n; row += 1) {
      const from = row * WIDTH;
      let when = fixed[from] as number;
      if (fixed[from + 1] === EVENT.arrival) {
        const u = unit();
        const slip = -laws.meanSlipMs * Math.log(unit());
        if (u < laws.lossShare) when = Infinity;
        else if (u > laws.lossShare + laws.noneShare) when += slip;
      }
      at[row] = when;
      let place = row;
      while (place > 0 && (at[order[place - 1] as number] as number) > when) {
        order[place] = order[place - 1] as number;
        place -= 1;
      }
      order[place] = row;
    }
  };

  const arrive = (from: number, now: number): void => {
    for (let tank = 0; tank < tanks; tank += 1) {
      const brought = fixed[from + 3 + tank] as number;
      if (brought === 0) continue;
      const row = tank * 7;
      const level = advance(row, now) + brought;
      const maximum = state[row + 3] as number;
      state[row] = level < maximum ? level : maximum;
    }
  };

  const load = (from: number, now: number): number => {
    let isShort = 0;
    for (let tank = 0; tank < tanks; tank += 1) {
      const row = tank * 7;
      const level = advance(row, now);
      state[row] = level;
      if (level - (state[row + 4] as number) < (fixed[from + 3 + tank] as number)) isShort = 1;
    }
    if (isShort === 0)
      for (let tank = 0; tank < tanks; tank += 1)
        state[tank * 7] = (state[tank * 7] as number) - (fixed[from + 3 + tank] as number);
    return 1 - isShort;
  };

  return {
    run: (replications: number): number => {
      let flown = 0;
      for (let r = 0; r < replications; r += 1) {
        draw();
        for (let tank = 0; tank < tanks; tank += 1) {
          const row = tank * 7;
          state[row] = state[row + 6] as number;
          state[row + 1] = plan.asOfAt;
          state[row + 2] = (state[row + 5] as number) * (factors[tank] as number);
        }
        for (let place = 0; place < n; place += 1) {
          const from = (order[place] as number) * WIDTH;
          const now = at[order[place] as number] as number;
          if (now > plan.horizonAt) break;
          const kind = fixed[from + 1] as number;
          if (kind === EVENT.arrival) arrive(from, now);
          else if (kind === EVENT.load) flown += load(from, now);
          else {
            const row = (fixed[from + 2] as number) * 7;
            state[row] = advance(row, now);
            state[row + 2] = (fixed[from + 3] as number) * (factors[fixed[from + 2] as number] as number);
          }
        }
      }
      return flown;
    },
  };
};
