/**
 * The resupply search of the plan case on screen: asked for by the person, kept through other views, marked old once the
 * plan is another than the one it was asked of.
 */
import { useMemo, useSyncExternalStore } from "react";
import type { Failure } from "../../app/ground/failure.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { ResupplyAnswer, ResupplyBracket } from "../../app/resupply/answer.ts";
import type { ResupplyAsked } from "../../app/resupply/asked.ts";
import { type Proposal, proposalOf, proposedPlan } from "../../app/resupply/proposed-plan.ts";
import type { AppState } from "./app-state.ts";
import type { Run } from "./run.ts";
import { type CaseForecast, forecastCase } from "./case-forecast.ts";
import type { Asked } from "./asked.ts";
import type { Session } from "./session.ts";
import { createStore } from "./store.ts";
import { useApp } from "./use-session.ts";

const ASKER = "resupply";

interface Search {
  readonly path: string;
  readonly asked: ResupplyAsked;
  /** The plan that it was asked of. */
  readonly present: CaseForecast;
  readonly print: string;
  readonly letGo: () => void;
}

/** The plan case that a proposal was taken as. */
interface Taken {
  readonly id: string;
  readonly name: string;
  readonly sentence: string;
}

interface Searches {
  readonly search: Search | null;
  readonly serial: number;
  readonly taken: Taken | null;
  /** Whether the timeline shows the proposal. */
  readonly isOnTimeline: boolean;
}

const searches = createStore<Searches>({ search: null, serial: 0, taken: null, isOnTimeline: true });

/** All of a plan that the search can hang on. Hulls that fly nothing are left out: taking a proposal adds some. */
const printOf = (plan: PlanSnapshot): string => {
  const used = new Set([
    ...plan.flights.map(({ craftId }) => craftId),
    ...plan.sorties.map(({ landerId }) => landerId),
  ]);
  return JSON.stringify({ ...plan, craft: plan.craft.filter(({ id }) => used.has(id)) });
};

/** The plan case as the ledger has it: what is only supposed on screen is not asked about. */
export const savedCase = ({ trial, current }: AppState): CaseForecast | null => trial?.base ?? current;

/** Begins a search for the plan case on screen; one that runs is given up. */
export const findPlan = ({ store, questions }: Session, asked: ResupplyAsked): void => {
  const { ledger } = store.get();
  const current = savedCase(store.get());
  if (ledger === null || current === null) return;
  const { search: before, serial } = searches.get();
  const letGo = questions.hold(ASKER, {
    name: "resupply.plan",
    input: { ...asked, planCaseId: current.plan.planCase.id },
    key: `${ASKER} ${String(serial)}`,
    title: "Resupply plan",
    restMs: 0,
  });
  before?.letGo();
  const search = { path: ledger.path, asked, present: current, print: printOf(current.plan), letGo };
  searches.set({ search, serial: serial + 1, taken: null });
};

export const setTaken = (taken: Taken): void => searches.set({ taken, isOnTimeline: false });
export const showOnTimeline = (isOnTimeline: boolean): void => searches.set({ isOnTimeline });

/** The proposal with its forecast; made once an answer. */
interface ShownProposal {
  readonly proposal: Proposal;
  readonly forecast: CaseForecast;
}

const made = new WeakMap<ResupplyAnswer, ShownProposal>();

const shownProposal = (present: CaseForecast, answer: ResupplyAnswer): ShownProposal | null => {
  if (answer.proposed === null) return null;
  const known = made.get(answer);
  if (known !== undefined) return known;
  const proposal = proposalOf(answer);
  const plan = proposedPlan(present.plan, proposal);
  const shown = { proposal, forecast: forecastCase({ ...present.view, plan }) };
  made.set(answer, shown);
  return shown;
};

export interface ShownResupply {
  /** What was asked, and of which plan; null: nothing, of this plan case. */
  readonly asked: ResupplyAsked | null;
  readonly present: CaseForecast | null;
  readonly answer: ResupplyAnswer | null;
  readonly proposed: ShownProposal | null;
  /** The plan is no longer the one that was asked about. */
  readonly isOld: boolean;
  readonly bracket: ResupplyBracket | null;
  readonly run: Run | null;
  readonly failure: Failure | null;
  readonly taken: Taken | null;
  readonly isOnTimeline: boolean;
}

const nothing: Omit<ShownResupply, "isOnTimeline"> = {
  asked: null,
  present: null,
  answer: null,
  proposed: null,
  isOld: false,
  bracket: null,
  run: null,
  failure: null,
  taken: null,
};

export const useResupply = (): ShownResupply => {
  const { search, taken, isOnTimeline } = useSyncExternalStore(searches.subscribe, searches.get);
  const question = useApp((state) => state.asked[ASKER]) as Asked<"resupply.plan"> | undefined;
  const path = useApp((state) => state.ledger?.path);
  const current = useApp(savedCase);
  const isHere =
    search !== null && search.path === path && search.present.plan.planCase.id === current?.plan.planCase.id;
  const print = useMemo(() => (isHere && current !== null ? printOf(current.plan) : ""), [isHere, current]);
  if (!isHere || question === undefined) return { ...nothing, isOnTimeline };
  const answer = question.isCurrent ? question.value : null;
  return {
    asked: search.asked,
    present: search.present,
    answer,
    proposed: answer === null ? null : shownProposal(search.present, answer),
    isOld: search.print !== print,
    bracket: question.partial,
    run: question.run,
    failure: question.failure,
    taken,
    isOnTimeline,
  };
};
