/**
 * The timeline's moving parts outside React: the painter, what is on screen, pointer and keys holding things. Made once
 * for the mounted elements; React hands it each new stage.
 */
import { formatWithWeekday } from "../../format/instant.ts";
import type { Session } from "../../state/session.ts";
import { joined, selectedRefs, toggled } from "../../state/many.ts";
import { TRIAL_REFUSAL } from "../../state/trial.ts";
import { moveLabel } from "../drag/hold.ts";
import { movedModel } from "../drag/moved-model.ts";
import { HEAD_HEIGHT } from "../layout/head.ts";
import { rangeTo, refOf, refsInBox } from "../pointer/many-items.ts";
import { type PointerReports, listenToPointer } from "../pointer/pointer.ts";
import { consequences } from "../words/consequence.ts";
import type { FocusPlace } from "./item-layer.tsx";
import { type KeyHold, createKeyHold } from "./key-hold.ts";
import { type Painter, createPainter } from "./painter.ts";
import { createReadout } from "./readout.ts";
import { type Stage, paintAtRest } from "./stage.ts";

export interface TimelineControl {
  readonly painter: Painter;
  readonly keyHold: KeyHold;
  readonly scroller: HTMLElement;
  /** Paints the new stage; one of the same plan waits while something is held, one of another puts it back. */
  readonly show: (stage: Stage | null) => void;
  /** Starts listening to the pointer; the answer stops it. */
  readonly listen: () => () => void;
}

const HOUR_MS = 3_600_000;

const part = (root: HTMLElement, selector: string): HTMLElement => {
  const found = root.querySelector<HTMLElement>(selector);
  if (found === null) throw new Error(`The timeline has no part ${selector}.`);
  return found;
};

const canvas = (root: HTMLElement, selector: string): HTMLCanvasElement => {
  const found = part(root, selector);
  if (!(found instanceof HTMLCanvasElement)) throw new Error(`The timeline cannot draw on ${selector}.`);
  return found;
};

export const createControl = (
  root: HTMLElement,
  session: Session,
  focus: (place: FocusPlace) => void,
): TimelineControl => {
  const { store } = session;
  const body = part(root, ".timeline-body");
  const scroller = part(root, ".timeline-scroller");
  const painter = createPainter(
    {
      head: canvas(root, ".timeline-head canvas"),
      base: canvas(root, ".canvas-base"),
      active: canvas(root, ".canvas-active"),
    },
    root,
  );
  const readout = createReadout({
    date: part(root, ".cursor-date"),
    hint: part(root, ".pointer-hint"),
    head: part(root, ".timeline-head"),
    scroller,
  });
  const boxPart = part(root, ".select-box");
  let shown: Stage | null = null;
  let isHeld = false;
  /** A newer stage of the plan that is held: new bands, another size. Shown when the hand is empty again. */
  let waiting: Stage | null = null;

  const reports: PointerReports = {
    stage: () => shown,
    whyClosed: () => {
      const { ledger, trial } = store.get();
      if (ledger?.readOnlyBecause !== null) return "This ledger is read-only.";
      return trial === null ? null : TRIAL_REFUSAL.message;
    },
    select: (hit, how) => {
      if (hit === null) return session.select(null);
      focus({ rowId: hit.item.rowId, id: hit.item.id });
      const ref = refOf(hit.item);
      if (ref === null) return;
      const refs = selectedRefs(store.get());
      if (how === "alone") session.select(ref);
      else if (how === "toggle") session.selectMany(toggled(refs, ref));
      else session.selectMany(rangeTo(shown?.rows ?? [], refs.at(-1) ?? ref, ref));
    },
    box: (box) => {
      boxPart.hidden = box === null;
      if (box === null) return;
      Object.assign(boxPart.style, {
        left: `${String(box.x)}px`,
        top: `${String(box.y)}px`,
        width: `${String(box.width)}px`,
        height: `${String(box.height)}px`,
      });
    },
    selectBox: (box, isMore) => {
      const inside = refsInBox(shown?.rows ?? [], box);
      session.selectMany(isMore ? joined(selectedRefs(store.get()), inside) : inside);
      session.announce(`${String(inside.length)} selected.`);
    },
    stretch: (timeWindow) => store.set({ timeWindow }),
    drop: (model, grab, change) => {
      const words = consequences(model.plan, model.glance, movedModel(model, change).glance, store.get().massUnit);
      session.announce(`${moveLabel(model, grab)}. ${words}`);
      void session.edit(moveLabel(model, grab), [change]).then((reply) => {
        if (!reply.ok) session.fail(reply.failure);
      });
    },
    refuse: (why) => session.tell("information", why),
    addAt: (lane, at) => {
      if (shown === null) return;
      const why = reports.whyClosed();
      if (why !== null) return session.tell("information", why);
      const isSortie = lane.kind === "sorties";
      const near = shown.rows.find((row) => row.id === lane.id)?.items[0];
      session.openDialog(isSortie ? "plan.addSortie" : "plan.addFlight", {
        at: Math.round(at / HOUR_MS) * HOUR_MS,
        subject: near === undefined ? null : { kind: isSortie ? "sortie" : "flight", id: near.id },
      });
    },
    hover: (x, y, hit) => {
      if (shown === null) return;
      const { scale } = shown.frame;
      readout.show(x, y, formatWithWeekday(scale.at(x)), hit?.item.words ?? null, scale);
    },
    leave: readout.hide,
    follow: (glance) => store.set({ held: glance }),
    holding: (isHolding) => {
      if (!isHolding) store.set({ held: null });
      isHeld = isHolding;
      // After what is put down has been said and painted from the stage that it was taken from.
      if (!isHolding) queueMicrotask(showWaiting);
      root.toggleAttribute("data-holding", isHolding);
    },
  };
  const keyHold = createKeyHold({ ...reports, say: session.announce });

  const show = (stage: Stage | null): void => {
    if (isHeld && stage !== null && stage.model.plan === shown?.model.plan) {
      waiting = stage;
      return;
    }
    waiting = null;
    keyHold.putBack();
    if (isHeld) body.dispatchEvent(new PointerEvent("pointercancel"));
    shown = stage;
    readout.hide();
    if (stage === null) return;
    painter.retheme();
    painter.resize(stage.place.width, HEAD_HEIGHT, stage.place.height);
    paintAtRest(stage);
  };
  function showWaiting(): void {
    if (!isHeld && waiting !== null) show(waiting);
  }

  return { painter, keyHold, scroller, show, listen: () => listenToPointer(body, reports) };
};
