/**
 * The engine against the older one that is kept beside it, and against the bare kernel: how long one forecast with its
 * supply statuses takes, as ratios. All three run in turns in one process, in batches of a quarter of a millisecond, so
 * that whatever else the machine does falls on all alike; and in several fresh copies of the bundle, since what the
 * compiler makes of either engine is not the same each time.
 */
import { type Bench, type BenchFigure, median } from "./bench.ts";
import { type BundledFile, withBundled } from "./bundled.ts";
import { chance } from "./chance.ts";
import { referenceCampaign } from "./reference-campaign.ts";

type Bundled = typeof import("./engine-in-bundle.ts");
/** What the input of both engines holds. */
type Input = Pick<
  ReturnType<Bundled["createOracle"]>["input"],
  "flightSlipMs" | "flightIsLost" | "sortieSlipMs" | "rateFactor"
>;
type Engine = { readonly input: Input; go(): unknown };

const DAY_MS = 86_400_000;
/** Of the older engine's time, at most. With every flight slipped both sort for as long as they differ: there 0.6 is not held. */
const LIMIT = 0.6;
const LIMIT_DRAWN = 0.65;
/** 0.15 ms, where the bare kernel takes 7 µs. */
const LIMIT_COMPILE = 22;
const DRAWN = "the same, flights slipped and lost, other loss rates";

const COPIES = 7;
const ROUNDS = 120;
const RUNS = 32;
const COMPILES = 3;
const WARM = 40;

/** Slips, losses and rates of RUNS runs, drawn as the prototype's were: 40 % in time, else 12 days late on average. */
const draws = (flights: number, tanks: number) => {
  const next = chance(5);
  return Array.from({ length: RUNS }, () => ({
    slipMs: Float64Array.from({ length: flights }, () =>
      next() < 0.4 ? 0 : Math.round(-12 * DAY_MS * Math.log(1 - next())),
    ),
    isLost: Uint8Array.from({ length: flights }, () => (next() < 0.03 ? 1 : 0)),
    factor: Float64Array.from({ length: tanks }, () => Math.exp(0.4 * (next() + next() + next() - 1.5))),
  }));
};

const modesOf = (flights: number, tanks: number) => {
  const drawn = draws(flights, tanks);
  return {
    "one forecast with its supply statuses": (engine: Engine): void => {
      for (let run = 0; run < RUNS; run += 1) engine.go();
    },
    "the same, one flight slipped, other loss rates": (engine: Engine): void => {
      const { input } = engine;
      for (let run = 0; run < RUNS; run += 1) {
        input.flightSlipMs[40] = (run + 1) * 17 * 60_000;
        input.rateFactor.fill(1 + run / 5000);
        engine.go();
      }
    },
    [DRAWN]: (engine: Engine): void => {
      const { input } = engine;
      for (const { slipMs, isLost, factor } of drawn) {
        input.flightSlipMs.set(slipMs);
        input.flightIsLost.set(isLost);
        input.rateFactor.set(factor);
        engine.go();
      }
    },
  };
};

const asPlanned = (engine: Engine): void => {
  const { input } = engine;
  input.flightSlipMs.fill(0);
  input.flightIsLost.fill(0);
  input.rateFactor.fill(1);
  engine.go();
};

const once = (act: () => void, runs = RUNS): number => {
  const from = performance.now();
  act();
  return (performance.now() - from) / runs;
};

const bareKernel = ({ compile, createEngine, createYardstick }: Bundled) => {
  const plan = compile(referenceCampaign());
  return createYardstick(plan, createEngine(plan).go().lineDeliverableKg, {
    noneShare: 0.4,
    meanSlipMs: 12 * DAY_MS,
    lossShare: 0.03,
    factorSigma: 0.2,
  });
};

/** In one copy of the bundle: how long compiling the plan takes, and that in runs of the bare kernel. */
const measureCompile = (bundled: Bundled) => {
  const snapshot = referenceCampaign();
  const bare = bareKernel(bundled);
  const round = () => {
    const ms = once(() => {
      for (let run = 0; run < COMPILES; run += 1) bundled.compile(snapshot);
    }, COMPILES);
    return { ms, toBare: ms / once(() => void bare.run(RUNS)) };
  };
  for (let warm = 0; warm < ROUNDS; warm += 1) round();
  const rounds = Array.from({ length: ROUNDS }, round);
  return { ms: median(rounds.map(({ ms }) => ms)), toBare: median(rounds.map(({ toBare }) => toBare)) };
};

/** In one copy of the bundle, by mode: the engine's time and the older one's, and its ratios to that and to the bare kernel. */
const measure = (bundled: Bundled) => {
  const plan = bundled.compile(referenceCampaign());
  const ours = bundled.createEngine(plan);
  const oracle = bundled.createOracle(plan);
  const bare = bareKernel(bundled);
  const modes = Object.entries(modesOf(plan.flightIds.length, plan.tankIds.length));
  const all = (run: (engine: Engine) => void): void => [ours, oracle].forEach(run);
  for (let round = 0; round < WARM; round += 1) {
    for (const [, run] of modes) all(run);
    all(asPlanned);
    bare.run(RUNS);
  }
  return modes.map(([name, run]) => {
    const rounds = Array.from({ length: ROUNDS }, () => {
      const ms = once(() => run(ours));
      const olderMs = once(() => run(oracle));
      return { ms, toOlder: ms / olderMs, toBare: ms / once(() => void bare.run(RUNS)) };
    });
    all(asPlanned);
    const middle = (of: "ms" | "toOlder" | "toBare"): number => median(rounds.map((round) => round[of]));
    return { name, ms: middle("ms"), toOlder: middle("toOlder"), toBare: middle("toBare") };
  });
};

const figures = async (file: BundledFile): Promise<readonly BenchFigure[]> => {
  const copies: ReturnType<typeof measure>[] = [];
  const compiled: ReturnType<typeof measureCompile>[] = [];
  for (let copy = 0; copy < COPIES; copy += 1) {
    const bundled = (await file.load()) as Bundled;
    copies.push(measure(bundled));
    compiled.push(measureCompile(bundled));
  }
  const compiling: readonly BenchFigure[] = [
    { name: "compiling the reference campaign, as it ships", value: median(compiled.map(({ ms }) => ms)), unit: "ms" },
    {
      name: "compiling: in runs of the bare kernel",
      value: median(compiled.map(({ toBare }) => toBare)),
      unit: "×",
      limit: LIMIT_COMPILE,
    },
  ];
  const modes = (copies[0] ?? []).flatMap(({ name }, mode) => {
    const of = (figure: "ms" | "toOlder" | "toBare"): readonly number[] =>
      copies.map((copy) => copy[mode]?.[figure] ?? 0);
    const spread = (values: readonly number[]): string =>
      `${Math.min(...values).toFixed(2)} to ${Math.max(...values).toFixed(2)}`;
    const note = `${COPIES} fresh copies: ${spread(of("toOlder"))}`;
    return [
      { name: `engine: ${name}`, value: 1000 * median(of("ms")), unit: "µs" },
      {
        name: `${name}: to the older engine's`,
        value: median(of("toOlder")),
        unit: "×",
        limit: name === DRAWN ? LIMIT_DRAWN : LIMIT,
        note,
      },
      { name: `${name}: to the bare kernel's`, value: median(of("toBare")), unit: "×", limit: 2.2 },
    ];
  });
  return [...compiling, ...modes];
};

export const bench: Bench = {
  name: "engine",
  run: () => withBundled(new URL("./engine-in-bundle.ts", import.meta.url), figures),
};
