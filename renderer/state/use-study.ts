/**
 * The study of the plan case on screen: begun by the person, kept through other views, stopped and gone on with, marked old
 * once the plan is another than the one it was asked of.
 */
import { useMemo, useSyncExternalStore } from "react";
import type { Failure } from "../../app/ground/failure.ts";
import type { StudyAsked } from "../../app/study/question.ts";
import type { StudyAnswer } from "../../app/study/study-answer.ts";
import { joinTables, rowsIn } from "../../app/study/study-table.ts";
import type { Asked } from "./asked.ts";
import type { CaseForecast } from "./case-forecast.ts";
import type { Run } from "./run.ts";
import type { Session } from "./session.ts";
import { createStore } from "./store.ts";
import { savedCase } from "./use-resupply.ts";
import { useApp } from "./use-session.ts";

const ASKER = "study";

interface Begun {
  readonly path: string;
  readonly asked: StudyAsked;
  /** The plan that it was asked of. */
  readonly present: CaseForecast;
  /** Rows of before it was stopped; null: it began at the first point. */
  readonly before: StudyAnswer | null;
  readonly letGo: () => void;
}

const studies = createStore<{ begun: Begun | null; serial: number }>({ begun: null, serial: 0 });

const begin = ({ store, questions }: Session, asked: StudyAsked, before: StudyAnswer | null): void => {
  const { ledger } = store.get();
  const present = savedCase(store.get());
  if (ledger === null || present === null) return;
  const { begun: last, serial } = studies.get();
  const from = before === null ? 0 : before.from + rowsIn(before.rows);
  const letGo = questions.hold(ASKER, {
    name: "study.ask",
    input: { asked, planCaseId: present.plan.planCase.id, from },
    key: `${ASKER} ${String(serial)}`,
    title: "Study",
    restMs: 0,
  });
  last?.letGo();
  studies.set({ begun: { path: ledger.path, asked, present, before, letGo }, serial: serial + 1 });
};

/** Begins a study of the plan case on screen; one that runs is given up. */
export const startStudy = (session: Session, asked: StudyAsked): void => begin(session, asked, null);

/** Goes on with a study that was stopped: its rows stay. */
export const goOn = (session: Session, sofar: StudyAnswer): void => begin(session, sofar.asked, sofar);

const joined = (before: StudyAnswer | null, answer: StudyAnswer): StudyAnswer =>
  before === null
    ? answer
    : {
        ...answer,
        from: before.from,
        rows: joinTables([before.rows, answer.rows], answer.columns.length),
      };

export interface ShownStudy {
  readonly asked: StudyAsked | null;
  /** The plan that it was asked of. */
  readonly present: CaseForecast | null;
  /** All rows there are; null: none. */
  readonly answer: StudyAnswer | null;
  readonly isWhole: boolean;
  /** The plan is no longer the one that was asked about. */
  readonly isOld: boolean;
  readonly run: Run | null;
  readonly failure: Failure | null;
}

const nothing: ShownStudy = {
  asked: null,
  present: null,
  answer: null,
  isWhole: false,
  isOld: false,
  run: null,
  failure: null,
};

export const useStudy = (): ShownStudy => {
  const { begun } = useSyncExternalStore(studies.subscribe, studies.get);
  const question = useApp((state) => state.asked[ASKER]) as Asked<"study.ask"> | undefined;
  const path = useApp((state) => state.ledger?.path);
  const current = useApp(savedCase);
  const isHere = begun !== null && begun.path === path && begun.present.plan.planCase.id === current?.plan.planCase.id;
  const isOld = useMemo(
    () =>
      isHere &&
      begun.present.plan !== current?.plan &&
      JSON.stringify(begun.present.plan) !== JSON.stringify(current?.plan),
    [isHere, begun, current],
  );
  const sofar = question === undefined ? null : question.isCurrent ? question.value : question.partial;
  const before = begun?.before ?? null;
  const answer = useMemo(() => {
    if (sofar === null) return before;
    // Rows of two plans are never put together.
    return before === null || before.inputHash === sofar.inputHash ? joined(before, sofar) : sofar;
  }, [before, sofar]);
  if (!isHere || question === undefined) return nothing;
  return {
    asked: begun.asked,
    present: begun.present,
    answer,
    isWhole: answer !== null && answer.from === 0 && rowsIn(answer.rows) >= answer.points,
    isOld,
    run: question.run,
    failure: question.failure,
  };
};
