/** The long computations by name: functions of plain data that run in threads. A new one is one line here. */
import { randomUUID } from "node:crypto";
import type { MergeInput } from "../../../app/merge/merge.ts";
import type { Recorder } from "../../../app/records/recorder.ts";
import type { TankFitQuestion } from "../../../app/losses/fit/fit-question.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { ReportInputs } from "../../../app/report/context.ts";
import type { RiskAnswer, RiskCauses, RiskDifference } from "../../../app/risk/answer.ts";
import type { CausesAsked, ComparedBases, ComparedPart, VariantPart } from "../../../app/risk/ask-causes.ts";
import type { BlockRange, RiskBase, RunAsked } from "../../../app/risk/ask-risk.ts";
import type { Tally } from "../../../app/risk/tally.ts";
import { check } from "../../../app/supply/check.ts";
import { findCures } from "../../../app/supply/cures/find-cures.ts";
import { type AskedWay, neededOfWay, neededOfWays, type WaysAsked } from "../../../app/ways/ways-question.ts";
import type { ResupplyBracket } from "../../../app/resupply/answer.ts";
import type { ResupplyAsked } from "../../../app/resupply/asked.ts";
import type { RepairAsked } from "../../../app/resupply/repair-answer.ts";
import type { SolveLinear } from "../../../app/resupply/linear.ts";
import { asksResupply } from "../../../app/study/asks.ts";
import type { FromPoint, StudyDone, StudyOnScreen, StudyPart } from "../../../app/study/ask-study.ts";
import type { EdgesAsked } from "../../../app/study/study-edges.ts";
import type { StudyAnswer } from "../../../app/study/study-answer.ts";
import type { PointRange } from "../../../app/study/row-lines.ts";
import type { StudyBase } from "../../../app/study/study.ts";
import { type Leading, type Working, stopped } from "../../../app/work/working.ts";
import type { SourceQuestion } from "../../exchange/take-source.ts";
import type { Writing } from "../../report/write-report.ts";
import { alone, once, spread, type FindWork, type Work } from "./kind.ts";

/** Nothing is asked beside the base, or there is no base. */
type None = null;

let solver: Promise<SolveLinear> | null = null;
/** One for all parts of a study in this thread. */
const studySolver = async (): Promise<SolveLinear> => {
  solver ??= import("../linear-solver.ts").then(async ({ loadLinearSolver }) => await loadLinearSolver());
  return await solver;
};

// What takes long to load (distributions, writers of PDF and workbooks) is loaded when it is asked for.
export const works = {
  "supply.check": alone((plan: PlanSnapshot, _asked: None, working) =>
    check(plan, (share) => {
      if (working.shouldStop()) throw stopped();
      working.tell({ share, words: "Checking the supply" });
    }),
  ),
  "supply.cures": alone((plan: PlanSnapshot, { sortieId }: { readonly sortieId: string }, working) =>
    findCures(plan, sortieId, working),
  ),
  "ways.needed": spread({
    part: (plan: PlanSnapshot, asked: WaysAsked, way: AskedWay, working) => neededOfWay(plan, asked, way, working),
    lead: (_plan, asked, leading) => neededOfWays(asked, leading),
  }),
  "risk.run": spread({
    part: async (base: RiskBase, asked: RunAsked, blocks: BlockRange, working) =>
      (await import("../../../app/risk/ask-risk.ts")).runPart(base, asked, blocks, working),
    lead: async (base, asked, leading: Leading<RiskAnswer, BlockRange, Tally>) =>
      await (await import("../../../app/risk/ask-risk.ts")).leadRun(base, asked, leading),
  }),
  "risk.causes": spread({
    part: async (base: RiskBase, asked: CausesAsked, part: VariantPart, working) =>
      (await import("../../../app/risk/ask-causes.ts")).runVariant(base, asked, part, working),
    lead: async (base, asked, leading: Leading<RiskCauses, VariantPart, Uint8Array>) =>
      await (await import("../../../app/risk/ask-causes.ts")).leadCauses(base, asked, leading),
  }),
  "risk.compare": spread({
    part: async (bases: ComparedBases, asked: CausesAsked, part: ComparedPart, working) =>
      (await import("../../../app/risk/ask-causes.ts")).runCompared(bases, asked, part, working),
    lead: async (bases, asked, leading: Leading<RiskDifference, ComparedPart, Uint8Array>) =>
      await (await import("../../../app/risk/ask-causes.ts")).leadCompared(bases, asked, leading),
  }),
  "resupply.plan": {
    ...alone(async (plan: PlanSnapshot, asked: ResupplyAsked, working: Working<ResupplyBracket>) => {
      const [{ loadLinearSolver }, { planResupply }] = await Promise.all([
        import("../linear-solver.ts"),
        import("../../../app/resupply/plan-resupply.ts"),
      ]);
      return planResupply(plan, asked, await loadLinearSolver(), working);
    }),
    // The best plan found is forecast anew, and what each flight is for is worked out.
    stopMs: 5000,
  },
  "resupply.repair": {
    ...alone(async (plan: PlanSnapshot, asked: RepairAsked, working) => {
      const [{ loadLinearSolver }, { repair }] = await Promise.all([
        import("../linear-solver.ts"),
        import("../../../app/resupply/repair.ts"),
      ]);
      return repair(plan, asked, await loadLinearSolver(), working);
    }),
    // The repairs found so far are forecast anew.
    stopMs: 5000,
  },
  "resupply.leaveBy": alone(async (plan: PlanSnapshot, _asked: None, working) =>
    (await import("../../../app/resupply/leave-by.ts")).leaveBy(plan, working),
  ),
  "study.rows": alone(async (base: StudyBase, range: PointRange, working) => {
    const { rowLines } = await import("../../../app/study/row-lines.ts");
    return rowLines(base, range, asksResupply(base.asked) ? await studySolver() : null, working);
  }),
  "study.ask": spread({
    part: async (base: StudyOnScreen, _asked: FromPoint, part: StudyPart, working) => {
      const { studyPart } = await import("../../../app/study/ask-study.ts");
      const solve = asksResupply(base.asked) ? await studySolver() : null;
      return studyPart(base, part, solve, () => performance.now(), working);
    },
    lead: async (base, asked, leading: Leading<StudyAnswer, StudyPart, StudyDone>) =>
      await (await import("../../../app/study/ask-study.ts")).leadStudy(base, asked, leading),
  }),
  "study.cost": alone(async (base: StudyBase) => {
    const { costOf, prepared } = await import("../../study/measure.ts");
    return costOf(await prepared(base));
  }),
  "study.edges": alone(async (plan: PlanSnapshot, asked: EdgesAsked, working) =>
    (await import("../../../app/study/study-edges.ts")).findEdges(plan, asked, working),
  ),
  "losses.fit": alone(async (_base: None, question: TankFitQuestion) =>
    (await import("../../../app/losses/fit/fit-tank.ts")).fitTank(question),
  ),
  "merge.compare": once(async ({ author, recordedAt, ...both }: MergeInput & Omit<Recorder, "newId">) => {
    const { mergeLedgers } = await import("../../../app/merge/merge.ts");
    return mergeLedgers(both, { author, recordedAt, newId: () => `entry-${randomUUID()}` }).view;
  }),
  "report.make": once(async (inputs: ReportInputs) => (await import("../../report/make-report.ts")).makeReport(inputs)),
  "report.write": once(
    async (writing: Writing, working) =>
      await (
        await import("../../report/write-report.ts")
      ).writeReport(writing, (share) => {
        if (working.shouldStop()) throw stopped();
        working.tell({ share, words: "Writing the report" });
      }),
  ),
  "rows.read": once(async (question: SourceQuestion, working) => {
    working.tell({ share: null, words: "Reading the file" });
    const { takeSource } = await import("../../exchange/take-source.ts");
    return await takeSource(question, (share) => {
      if (working.shouldStop()) throw stopped();
      working.tell({ share, words: "Checking the rows" });
    });
  }),
} as const;

type Works = typeof works;
export type WorkName = keyof Works;
export type BaseOf<N extends WorkName> = Works[N] extends Work<infer B, infer _A, infer _O, infer _P> ? B : never;
export type AskedOf<N extends WorkName> = Works[N] extends Work<infer _B, infer A, infer _O, infer _P> ? A : never;
export type AnswerOf<N extends WorkName> = Works[N] extends Work<infer _B, infer _A, infer O, infer _P> ? O : never;

/** The computation of this name as the runner handles it, whatever its types. */
export const workOf: FindWork = (name) => works[name as WorkName] as unknown as ReturnType<FindWork>;
