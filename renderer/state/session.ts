/** What the page can do: fetch, edit, undo, open, tell. Views call these; only this file and its parts write the state. */
import type { ActionId } from "../../app/contract/actions.ts";
import type { Input, Output, PageOperation } from "../../app/contract/contract.ts";
import type { Failure, Reply } from "../../app/ground/failure.ts";
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";
import type { Change } from "../../app/entity/entities.ts";
import type { Client } from "./client.ts";
import type { MassUnit } from "../format/mass.ts";
import { type ThemeChoice, applyTheme } from "../theme/theme-choice.ts";
import {
  type AppState,
  type DialogRequest,
  type ManyRef,
  type Notice,
  type Selection,
  type TimeWindow,
  type ViewId,
} from "./app-state.ts";
import { applyChanges } from "../../app/entity/plan-changes.ts";
import { forecastCase } from "./case-forecast.ts";
import { inspectorAfterSelecting } from "./inspector-choice.ts";
import { createLoading } from "./loading.ts";
import { rememberMassUnit } from "./remembered.ts";
import { NO_FILTER } from "./plan-filter.ts";
import { createQuestions, type Questions } from "./questions.ts";
import { shownOnlyRefusal } from "./shown-only.ts";
import type { Store } from "./store.ts";
import { TRIAL_REFUSAL, endTrial } from "./trial.ts";
import { windowAround } from "./window-around.ts";
import { createWork, type Work } from "./work.ts";

export interface Session {
  readonly store: Store<AppState>;
  readonly client: Client;
  /** Long work that is not a question of a part of the page: writing a report, bringing rows in. */
  readonly work: Work;
  readonly questions: Questions;
  /** Asks the service; a failure is shown as a notice and answered with null. */
  readonly ask: <N extends PageOperation>(name: N, input: Input<N>) => Promise<Output<N> | null>;
  /** Asks a command that answers the ledger; the page then shows the new state. The reply is for a form to show its field. */
  readonly command: <N extends PageOperation>(name: N, input: Input<N>) => Promise<Reply<Output<N>>>;
  /**
   * Changes the plan as one step that can be undone; shown at once, taken back if it is refused; the
   * caller says why (`fail`, or a form beside its field).
   */
  readonly edit: (label: string, changes: readonly Change[], reason?: string) => Promise<Reply<LedgerInfo>>;
  readonly undo: () => Promise<void>;
  readonly redo: () => Promise<void>;
  /** Opens a ledger by one of the host's ways; null: the person chose none. */
  readonly open: (how: () => Promise<Reply<LedgerInfo | null>>) => Promise<void>;
  /** Fetches the ledger and the cases on screen anew. */
  readonly refresh: () => Promise<void>;
  readonly chooseCase: (planCaseId: string) => void;
  readonly compareWith: (planCaseId: string | null) => void;
  readonly select: (selection: Selection | null) => void;
  /** Selects several flights and sorties; the last is the one that the page turns to. */
  readonly selectMany: (refs: readonly ManyRef[]) => void;
  readonly show: (view: ViewId) => void;
  /** Shows a thing in a view, and brings its stretch of time into sight; null: it has none. */
  readonly goTo: (view: ViewId, selection: Selection, stretch: TimeWindow | null) => void;
  /** Lets nothing be changed from this window, or lets it again. */
  readonly showOnly: (isOn: boolean) => void;
  readonly chooseUnit: (unit: MassUnit) => void;
  readonly chooseTheme: (theme: ThemeChoice) => void;
  readonly tell: (tone: Notice["tone"], words: string) => void;
  readonly fail: (failure: Failure) => void;
  readonly dismiss: (noticeId: number) => void;
  readonly openDialog: (action: ActionId, about?: Partial<Pick<DialogRequest, "subject" | "at" | "file">>) => void;
  readonly closeDialog: () => void;
  /** Says a sentence to screen readers. */
  readonly announce: (words: string) => void;
}

let noticeCount = 0;

export const createSession = (client: Client, store: Store<AppState>): Session => {
  const tell: Session["tell"] = (tone, words) => {
    const others = store.get().notices.filter((notice) => notice.words !== words);
    noticeCount += 1;
    store.set({ notices: [...others, { id: noticeCount, tone, words }].slice(-4) });
  };
  const fail: Session["fail"] = (failure) => {
    if (failure.code !== "cancelled") tell(failure.code === "defect" ? "failure" : "warning", failure.message);
  };
  const loading = createLoading(client, store, fail);
  const work = createWork(client, store);
  const questions = createQuestions(work, store);

  const command: Session["command"] = async (name, input) => {
    if (store.get().trial !== null) return { ok: false, failure: TRIAL_REFUSAL };
    const reply = await client.call(name, input);
    if (reply.ok) await loading.refresh();
    return reply;
  };

  const noticing = async <T>(reply: Promise<Reply<T>>): Promise<T | null> => {
    const answer = await reply;
    if (answer.ok) return answer.value;
    fail(answer.failure);
    return null;
  };

  const edit: Session["edit"] = async (label, changes, reason = "") => {
    const { current: before, trial } = store.get();
    if (trial !== null) return { ok: false, failure: TRIAL_REFUSAL };
    // Before it is shown: what is refused at once must not flash by.
    const shownOnly = shownOnlyRefusal(store.get());
    if (shownOnly !== null) return { ok: false, failure: shownOnly };
    if (before !== null) {
      const plan = applyChanges(before.plan, changes);
      store.set({ current: forecastCase({ ...before.view, plan }) });
    }
    const answered = loading.beginEdit();
    const reply = await client.call("plan.edit", { label, reason, changes: [...changes] });
    answered();
    await loading.refresh(!reply.ok);
    return reply;
  };

  return {
    store,
    client,
    work,
    questions,
    command,
    edit,
    tell,
    fail,
    refresh: () => loading.refresh(true),
    ask: (name, input) => noticing(client.call(name, input)),
    undo: async () => void (await noticing(command("plan.undo", {}))),
    redo: async () => void (await noticing(command("plan.redo", {}))),
    open: async (how) => {
      const opened = await noticing(how());
      if (opened === null) return;
      store.set({
        planCaseId: null,
        compareCaseId: null,
        selection: null,
        many: [],
        timeWindow: null,
        depotId: null,
        filter: NO_FILTER,
      });
      await loading.refresh(true);
    },
    chooseCase: (planCaseId) => {
      endTrial(store);
      const { compareCaseId, planCaseId: before } = store.get();
      store.set({ planCaseId, compareCaseId: compareCaseId === planCaseId ? before : compareCaseId });
      void loading.refresh(true);
    },
    compareWith: (compareCaseId) => {
      endTrial(store);
      store.set({ compareCaseId: compareCaseId === store.get().planCaseId ? null : compareCaseId });
      void loading.refresh(true);
    },
    select: (selection) =>
      store.set({ selection, many: [], inspector: inspectorAfterSelecting(store.get().inspector, selection !== null) }),
    selectMany: (refs) => {
      const selection = refs.at(-1) ?? null;
      const inspector = inspectorAfterSelecting(store.get().inspector, selection !== null);
      store.set({ selection, many: refs.length > 1 ? refs : [], inspector });
    },
    show: (view) => store.set({ view }),
    goTo: (view, selection, stretch) => {
      const { timeWindow, inspector } = store.get();
      store.set({
        view,
        selection,
        many: [],
        inspector: inspectorAfterSelecting(inspector, true),
        timeWindow: stretch === null ? timeWindow : windowAround(timeWindow, stretch),
      });
    },
    showOnly: (isShownOnly) => {
      endTrial(store);
      store.set({ isShownOnly });
      void loading.refresh(true);
    },
    chooseUnit: (massUnit) => {
      rememberMassUnit(massUnit);
      store.set({ massUnit });
    },
    chooseTheme: (theme) => {
      applyTheme(theme);
      client.host.showTheme(theme);
      store.set({ theme });
    },
    dismiss: (noticeId) => store.set({ notices: store.get().notices.filter((notice) => notice.id !== noticeId) }),
    openDialog: (action, about = {}) =>
      store.set({
        dialog: {
          action,
          subject: about.subject === undefined ? store.get().selection : about.subject,
          at: about.at ?? null,
          ...(about.file === undefined ? {} : { file: about.file }),
        },
      }),
    closeDialog: () => store.set({ dialog: null }),
    announce: (announcement) => store.set({ announcement }),
  };
};
