/** A study made ready: its columns, and the row of any of its points, the same whoever asks and in whatever order. */
import { compile } from "../forecast/compile.ts";
import { createEngine, type Engine } from "../forecast/propagate.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { PlanningError } from "../ground/failure.ts";
import type { Reading } from "../ledger/journal.ts";
import { usualAsked } from "../resupply/asked.ts";
import type { SolveLinear } from "../resupply/linear.ts";
import { refuseEmpty } from "../risk/ask-risk.ts";
import type { Working } from "../work/working.ts";
import type { Cell, Column } from "./columns.ts";
import { designOf } from "./design.ts";
import { MAX_POINTS, type OutcomeAsked, type StudyAsked } from "./question.ts";
import { resupplyColumns, resupplyRow, riskColumns, riskRow, verdictColumns, verdictRow } from "./other-rows.ts";
import { layingOrder, refuseValue, resolveInputs } from "./resolve.ts";
import { supplyColumns, supplyRow } from "./supply-row.ts";
import type { Setter, Varied } from "./varied.ts";

/** What a study starts from: plain data, sent once to each thread. */
export interface StudyBase {
  readonly plan: PlanSnapshot;
  readonly readings: readonly Reading[];
  readonly asked: StudyAsked;
}

export interface Study {
  readonly asked: StudyAsked;
  readonly inputs: readonly Varied[];
  readonly points: number;
  /** The inputs, then what is asked. */
  readonly columns: readonly Column[];
  valuesOf(point: number): readonly number[];
  /** The plan case at a point. */
  planAt(values: readonly number[]): PlanSnapshot;
  /** Throws "cancelled" where `working` says stop before the row is whole; "refused" where a point cannot be asked. */
  rowOf(values: readonly number[], working?: Working): readonly Cell[];
}

const unhurried: Working = { tell: () => undefined, shouldStop: () => false };

/** Engines kept: on a grid the plans come round again. */
const MAX_ENGINES = 16;

interface Ready {
  readonly engine: Engine;
  readonly setters: readonly Setter[];
}

/** `solve`: needed where resupply is asked. Throws in words what cannot be asked. */
export const prepareStudy = ({ plan, readings, asked }: StudyBase, solve: SolveLinear | null = null): Study => {
  const inputs = resolveInputs(plan, asked);
  const design = designOf(asked);
  if (design.points > MAX_POINTS)
    throw new PlanningError(
      "invalid input",
      `That makes ${design.points.toLocaleString("en")} points, more than the ${MAX_POINTS.toLocaleString("en")} that one study may have. Take fewer values of an input.`,
      "design",
    );
  const order = layingOrder(asked);
  const sortieIds = compile(plan).sortieIds.filter(
    (id) => plan.sorties.find((row) => row.id === id)?.status !== "departed",
  );
  if (sortieIds.length === 0)
    throw new PlanningError(
      "refused",
      `${plan.planCase.name} has no sortie planned before its forecast ends: there is nothing to study.`,
      "case",
    );
  if (asked.ask.some(({ kind }) => kind === "risk")) refuseEmpty(plan);
  for (const one of asked.ask)
    if (one.kind === "resupply" && one.asked !== undefined && one.asked.chance !== null)
      throw new PlanningError(
        "refused",
        'A study asks resupply without a probability to reach. Ask {"kind": "risk"} beside it, or plan for lost flights ("lost").',
        "ask",
      );

  const planAt = (values: readonly number[]): PlanSnapshot =>
    order.reduce((now, n) => (inputs[n] as Varied).change(now, values[n] as number), plan);

  const canSet = (n: number, value: number): boolean => {
    const { setter, canSet: allows } = inputs[n] as Varied;
    return setter !== undefined && (allows?.(value) ?? true);
  };

  const engines = new Map<string, Ready>();
  /** The engine of a plan in which only the values that need it are laid over; the others are set. */
  const readyFor = (values: readonly number[], isSet: readonly boolean[]): Ready => {
    const key = values.map((value, n) => (isSet[n] === true ? "set" : String(value))).join(" ");
    const known = engines.get(key);
    if (known !== undefined) return known;
    const base = order.reduce(
      (now, n) => (isSet[n] === true ? now : (inputs[n] as Varied).change(now, values[n] as number)),
      plan,
    );
    const compiled = compile(base);
    const setters = inputs.map(({ setter }, n): Setter =>
      isSet[n] === true && setter !== undefined ? setter(compiled, base) : () => undefined,
    );
    const ready = { engine: createEngine(compiled), setters };
    const [oldest] = engines.keys();
    if (engines.size >= MAX_ENGINES && oldest !== undefined) engines.delete(oldest);
    engines.set(key, ready);
    return ready;
  };

  const supplyAt = (values: readonly number[], each: boolean): readonly Cell[] => {
    const isSet = values.map((value, n) => canSet(n, value));
    const { engine, setters } = readyFor(values, isSet);
    setters.forEach((set, n) => set(engine, values[n] as number));
    return supplyRow(engine.go(), sortieIds, each);
  };

  const cellsOf = (one: OutcomeAsked, values: readonly number[], working: Working): readonly Cell[] => {
    if (one.kind === "supply") return supplyAt(values, one.each);
    const now = planAt(values);
    if (one.kind === "verdict") return verdictRow(now);
    if (one.kind === "risk") return riskRow(now, readings, sortieIds, one, working);
    if (solve === null) throw new Error("a study that asks resupply needs the linear solver");
    const question = inputs.reduce(
      (so, input, n) => input.asked?.(so, now, values[n] as number) ?? so,
      one.asked ?? usualAsked,
    );
    return resupplyRow(now, question, solve, working);
  };

  const columnsOf = (one: OutcomeAsked): readonly Column[] => {
    if (one.kind === "supply") return supplyColumns(plan, sortieIds, one.each);
    if (one.kind === "verdict") return verdictColumns;
    return one.kind === "risk" ? riskColumns(plan, sortieIds) : resupplyColumns;
  };

  const study: Study = {
    asked,
    inputs,
    points: design.points,
    columns: [
      ...inputs.map(({ words, unit }) => ({ name: words, unit })),
      ...asked.ask.flatMap((one) => columnsOf(one)),
    ],
    valuesOf: (point) => design.valuesOf(point),
    planAt,
    rowOf: (values, working = unhurried) => [...values, ...asked.ask.flatMap((one) => cellsOf(one, values, working))],
  };
  // Whole numbers between two limits are found out here, not at the thousandth point.
  inputs.forEach((row, n) => {
    const values = asked.inputs[n]?.values;
    if (row.isWhole !== true || values === undefined) return;
    const probe = designOf({ inputs: [asked.inputs[n] as StudyAsked["inputs"][number]], design: { kind: "grid" } });
    for (let point = 0; point < probe.points; point += 1)
      refuseValue(row, probe.valuesOf(point)[0] ?? 0, `inputs.${n}.values`);
  });
  return study;
};
