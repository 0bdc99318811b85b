/**
 * The pointer over the timeline's body: cursor, pan, drag of flights and sorties, wheel, double-click. Listens on the
 * element itself; in the frame of a drag nothing of React runs.
 */
import type { Change } from "../../../app/entity/entities.ts";
import type { SupplyGlance } from "../../../app/supply/answer.ts";
import type { Box } from "../../../app/picture/shape.ts";
import type { Stretch } from "../../../app/picture/time-scale.ts";
import { panBy, zoomAbout } from "../../../app/picture/time-scale.ts";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import { type Stage, paintAtRest, paintCursor, takeHold } from "../body/stage.ts";
import type { Hold } from "../drag/hold.ts";
import { type Grab, snapped, whyNotMovable } from "../drag/move.ts";
import { type Hit, hitTest } from "../layout/hit-test.ts";
import type { Lane } from "../layout/place.ts";
import type { TimelineModel } from "../model/timeline-model.ts";

/** How a press selects: with neither key, with Ctrl (or Command), with Shift. */
export type Choosing = "alone" | "toggle" | "range";

export interface PointerReports {
  /** What is on screen; null: nothing yet. */
  readonly stage: () => Stage | null;
  /** Why nothing can be changed now; null: it can. */
  readonly whyClosed: () => string | null;
  /** `how`: alone; with or without it of what is selected already; all from the one selected to it. */
  readonly select: (hit: Hit | null, how: Choosing) => void;
  /** Draws a box on the body, pixels; null: takes it away. */
  readonly box: (box: Box | null) => void;
  /** Selects what lies in the box; `isMore`: beside what is selected already. */
  readonly selectBox: (box: Box, isMore: boolean) => void;
  readonly stretch: (stretch: Stretch) => void;
  /** Put down somewhere else. */
  readonly drop: (model: TimelineModel, grab: Grab, change: Change) => void;
  readonly refuse: (why: string) => void;
  readonly addAt: (lane: Lane, at: number) => void;
  /** What the hint and the date label say; null: nothing. */
  readonly hover: (x: number, y: number, hit: Hit | null) => void;
  readonly leave: () => void;
  readonly holding: (isHolding: boolean) => void;
  /** How the sorties stand with what is held where it is now. */
  readonly follow: (glance: SupplyGlance) => void;
}

/** Nearer than this it is a click, pixels. */
const THRESHOLD = 4;
/** Wheel steps of one line or one page in pixels, as most pointers send them. */
const WHEEL_UNIT = [1, 16, 400] as const;

type Press =
  | { readonly kind: "bar"; readonly hit: Hit; readonly x: number; readonly y: number; hold: Hold | null }
  | { readonly kind: "box"; readonly x: number; readonly y: number; box: Box | null }
  | { readonly kind: "ground"; readonly x: number; readonly y: number; readonly from: Stretch; isPanning: boolean };

const cursors = { body: "grab", start: "ew-resize", arrival: "ew-resize", end: "ew-resize" } as const;

interface Spot {
  readonly x: number;
  readonly y: number;
}

const boxBetween = (from: Spot, to: Spot): Box => ({
  x: Math.min(from.x, to.x),
  y: Math.min(from.y, to.y),
  width: Math.abs(to.x - from.x),
  height: Math.abs(to.y - from.y),
});

const choosingBy = ({ ctrlKey, metaKey, shiftKey }: MouseEvent): Choosing =>
  ctrlKey || metaKey ? "toggle" : shiftKey ? "range" : "alone";

/** Starts listening; the answer stops it. */
export const listenToPointer = (element: HTMLElement, reports: PointerReports): (() => void) => {
  let press: Press | null = null;
  let frame: number | null = null;
  let latest: PointerEvent | null = null;

  const placeOf = (event: MouseEvent): { readonly x: number; readonly y: number } => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };

  const grabOf = ({ item, grip }: Hit): Grab | null =>
    item.kind === "level" ? null : { kind: item.kind, id: item.id, grip };

  const pickUp = (stage: Stage, pressed: Extract<Press, { kind: "bar" }>): boolean => {
    const grab = grabOf(pressed.hit);
    if (grab === null) return false;
    const why = reports.whyClosed() ?? whyNotMovable(stage.model.plan, grab);
    if (why !== null) {
      reports.refuse(why);
      press = null;
      return false;
    }
    pressed.hold = takeHold(stage, grab, reports.follow);
    element.style.cursor = grab.grip === "body" ? "grabbing" : "ew-resize";
    reports.holding(true);
    window.addEventListener("keydown", onKeyDown, true);
    return true;
  };

  const letGo = (): void => {
    if (press?.kind === "bar") press.hold?.release();
    if (press?.kind === "box") reports.box(null);
    press = null;
    element.style.cursor = "";
    window.removeEventListener("keydown", onKeyDown, true);
    reports.holding(false);
  };

  const cancel = (): void => {
    const stage = reports.stage();
    letGo();
    if (stage !== null) paintAtRest(stage);
  };

  function onKeyDown(event: KeyboardEvent): void {
    if (event.key !== "Escape") return;
    event.preventDefault();
    event.stopPropagation();
    cancel();
  }

  const drag = (stage: Stage, pressed: Press, event: PointerEvent): void => {
    const { x, y } = placeOf(event);
    if (pressed.kind === "box") {
      if (pressed.box === null && Math.hypot(x - pressed.x, y - pressed.y) < THRESHOLD) return;
      pressed.box = boxBetween(pressed, { x, y });
      return reports.box(pressed.box);
    }
    const msPerPixel = DAY_MS / stage.frame.scale.pixelsPerDay;
    const isFar = Math.hypot(x - pressed.x, y - pressed.y) >= THRESHOLD;
    if (pressed.kind === "ground") {
      if (!pressed.isPanning && !isFar) return;
      pressed.isPanning = true;
      element.style.cursor = "grabbing";
      reports.stretch(panBy(pressed.from, (pressed.x - x) * msPerPixel, stage.model.whole));
      return;
    }
    if (pressed.hold === null && (!isFar || !pickUp(stage, pressed))) return;
    pressed.hold?.moveBy(snapped((x - pressed.x) * msPerPixel, stage.frame.scale.pixelsPerDay, event.altKey));
  };

  const hover = (stage: Stage, event: PointerEvent): void => {
    const { x, y } = placeOf(event);
    const hit = hitTest(stage.rows, x, y);
    element.style.cursor = hit === null ? "" : cursors[hit.grip];
    paintCursor(stage, x);
    reports.hover(x, y, hit);
  };

  const onFrame = (): void => {
    frame = null;
    const stage = reports.stage();
    const event = latest;
    if (stage === null || event === null) return;
    if (press === null) hover(stage, event);
    else if (press.kind !== "bar") drag(stage, press, event);
  };

  const onPointerMove = (event: PointerEvent): void => {
    latest = event;
    const stage = reports.stage();
    // A held bar joins its proposals per frame itself.
    if (press?.kind === "bar" && stage !== null) drag(stage, press, event);
    else frame ??= requestAnimationFrame(onFrame);
  };

  const onPointerDown = (event: PointerEvent): void => {
    const stage = reports.stage();
    if (event.button !== 0 || stage === null) return;
    const { x, y } = placeOf(event);
    const hit = hitTest(stage.rows, x, y);
    element.setPointerCapture(event.pointerId);
    if (hit !== null) press = { kind: "bar", hit, x, y, hold: null };
    else if (event.shiftKey) press = { kind: "box", x, y, box: null };
    else press = { kind: "ground", x, y, from: stage.frame.scale, isPanning: false };
    if (press.kind === "box") window.addEventListener("keydown", onKeyDown, true);
    paintCursor(stage, null);
    reports.leave();
  };

  const onPointerUp = (event: PointerEvent): void => {
    const pressed = press;
    const stage = reports.stage();
    if (pressed === null) return;
    if (pressed.kind === "box") {
      if (pressed.box !== null) reports.selectBox(pressed.box, event.ctrlKey || event.metaKey);
      return letGo();
    }
    if (pressed.kind === "ground") {
      if (!pressed.isPanning) reports.select(null, "alone");
      return letGo();
    }
    if (pressed.hold === null) {
      reports.select(pressed.hit, choosingBy(event));
      return letGo();
    }
    const { grab } = pressed.hold;
    const change = pressed.hold.proposal();
    letGo();
    if (stage === null) return;
    if (change === null) paintAtRest(stage);
    else reports.drop(stage.model, grab, change);
  };

  const onLeave = (): void => {
    if (press !== null) return;
    latest = null;
    const stage = reports.stage();
    if (stage !== null) paintCursor(stage, null);
    reports.leave();
  };

  const onDoubleClick = (event: MouseEvent): void => {
    const stage = reports.stage();
    if (stage === null) return;
    const { x, y } = placeOf(event);
    const lane = stage.place.lanes.find((each) => y >= each.top && y < each.top + each.height);
    if (lane === undefined || x < stage.place.left || x > stage.place.right) return;
    if (hitTest(stage.rows, x, y) === null) reports.addAt(lane, stage.frame.scale.at(x));
  };

  const onWheel = (event: WheelEvent): void => {
    const stage = reports.stage();
    if (stage === null || press !== null) return;
    // The pointer stands over another instant then.
    frame ??= requestAnimationFrame(onFrame);
    const unit = WHEEL_UNIT[event.deltaMode] ?? 1;
    const { scale } = stage.frame;
    if (event.ctrlKey || event.metaKey) {
      event.preventDefault();
      const factor = Math.exp((-event.deltaY * unit) / 300);
      return reports.stretch(zoomAbout(scale, scale.at(placeOf(event).x), factor, stage.model.whole));
    }
    const scroller = element.closest(".timeline-scroller");
    const scrolls = scroller !== null && scroller.scrollHeight > scroller.clientHeight;
    const sideways = event.shiftKey ? event.deltaY || event.deltaX : event.deltaX || (scrolls ? 0 : event.deltaY);
    if (sideways === 0) return;
    event.preventDefault();
    reports.stretch(panBy(scale, (sideways * unit * DAY_MS) / scale.pixelsPerDay, stage.model.whole));
  };

  element.addEventListener("pointermove", onPointerMove);
  element.addEventListener("pointerdown", onPointerDown);
  element.addEventListener("pointerup", onPointerUp);
  element.addEventListener("pointercancel", cancel);
  element.addEventListener("pointerleave", onLeave);
  element.addEventListener("dblclick", onDoubleClick);
  element.addEventListener("wheel", onWheel, { passive: false });
  return () => {
    if (frame !== null) cancelAnimationFrame(frame);
    letGo();
    element.removeEventListener("pointermove", onPointerMove);
    element.removeEventListener("pointerdown", onPointerDown);
    element.removeEventListener("pointerup", onPointerUp);
    element.removeEventListener("pointercancel", cancel);
    element.removeEventListener("pointerleave", onLeave);
    element.removeEventListener("dblclick", onDoubleClick);
    element.removeEventListener("wheel", onWheel);
  };
};
