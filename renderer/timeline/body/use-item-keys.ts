/** The keys inside the timeline (see timeline-keys.ts for their list). */
import { type KeyboardEvent, useLayoutEffect, useRef } from "react";
import { panBy, zoomAbout } from "../../../app/picture/time-scale.ts";
import { joined, selectedRefs, toggled } from "../../state/many.ts";
import { useSession } from "../../state/use-session.ts";
import { refOf } from "../pointer/many-items.ts";
import type { TimelineItem } from "../layout/items.ts";
import { type FocusPlace, tabStop } from "./item-layer.tsx";
import type { KeyHold } from "./key-hold.ts";
import type { Stage } from "./stage.ts";
import { walk } from "./walk.ts";

export interface ItemKeysWith {
  readonly stage: Stage | null;
  readonly focus: FocusPlace | null;
  readonly setFocus: (place: FocusPlace) => void;
  /** The element that holds the items. */
  readonly root: HTMLElement | null;
  readonly keyHold: KeyHold | null;
  readonly choose: (item: TimelineItem) => void;
  readonly askMenu: (item: TimelineItem, x: number, y: number) => void;
}

const ZOOM = 1.5;

export const useItemKeys = (using: ItemKeysWith): ((event: KeyboardEvent<HTMLElement>) => void) => {
  const { stage, focus, setFocus, root, keyHold, choose, askMenu } = using;
  const session = useSession();
  // After a step the element of the new item takes the focus, once it is there.
  const follows = useRef(false);
  useLayoutEffect(() => {
    if (!follows.current || focus === null) return;
    follows.current = false;
    const wanted = `${focus.rowId} ${focus.id}`;
    for (const cell of root?.querySelectorAll<HTMLElement>("[data-item]") ?? [])
      if (cell.dataset["item"] === wanted) cell.focus();
  });

  const show = (shown: Stage, item: TimelineItem): void => {
    const { scale } = shown.frame;
    if (item.kind !== "level" && (item.untilAt < scale.fromAt || item.fromAt > scale.untilAt)) {
      const middle = (item.fromAt + item.untilAt) / 2;
      const by = middle - (scale.fromAt + scale.untilAt) / 2;
      session.store.set({ timeWindow: panBy(scale, by, shown.model.whole) });
    }
    follows.current = true;
    setFocus({ rowId: item.rowId, id: item.id });
  };

  const isAmongMany = ({ id }: TimelineItem): boolean => session.store.get().many.some((ref) => ref.id === id);
  const addToSelection = (items: readonly TimelineItem[]): void =>
    session.selectMany(
      joined(
        selectedRefs(session.store.get()),
        items.flatMap((item) => refOf(item) ?? []),
      ),
    );

  const held = (event: KeyboardEvent<HTMLElement>): boolean => {
    const size = event.altKey ? "hour" : event.shiftKey ? "ten days" : "day";
    switch (event.key) {
      case "ArrowLeft":
      case "[":
        keyHold?.step(-1, size);
        return true;
      case "ArrowRight":
      case "]":
        keyHold?.step(1, size);
        return true;
      case " ":
      case "Enter":
        keyHold?.putDown();
        return true;
      case "Escape":
        keyHold?.putBack();
        return true;
      default:
        return event.key !== "Tab";
    }
  };

  const free = (event: KeyboardEvent<HTMLElement>, shown: Stage, item: TimelineItem): boolean => {
    const { scale } = shown.frame;
    const { whole } = shown.model;
    const length = scale.untilAt - scale.fromAt;
    const stretch = (next: { fromAt: number; untilAt: number }): true => {
      session.store.set({ timeWindow: next });
      return true;
    };
    switch (event.key) {
      case "Enter":
        choose(item);
        return true;
      case " ":
        keyHold?.pickUp(item, "body");
        return true;
      case "[":
      case "]":
        if (keyHold?.pickUp(item, "end") === true) keyHold.step(event.key === "[" ? -1 : 1, "day");
        return true;
      case "PageUp":
        return stretch(panBy(scale, -length, whole));
      case "PageDown":
        return stretch(panBy(scale, length, whole));
      case "+":
      case "=":
        return stretch(
          zoomAbout(
            scale,
            (Math.max(item.fromAt, scale.fromAt) + Math.min(item.untilAt, scale.untilAt)) / 2,
            ZOOM,
            whole,
          ),
        );
      case "-":
      case "−":
        return stretch(zoomAbout(scale, (scale.fromAt + scale.untilAt) / 2, 1 / ZOOM, whole));
      case "t":
      case "T":
        session.store.set({ isTimelineTable: true });
        return true;
      case "F10":
        if (!event.shiftKey) return false;
        askMenu(item, Math.max(item.x, scale.left), item.y + item.height);
        return true;
      case "Delete":
        // The selection is what is deleted; the action itself hears the key after this.
        if (!isAmongMany(item)) choose(item);
        return false;
      default: {
        const next = walk(shown.rows, item, event.key);
        if (next !== null) show(shown, next);
        if (next !== null && event.shiftKey) addToSelection([item, next]);
        return next !== null || event.key.startsWith("Arrow");
      }
    }
  };

  const onKeyDown = (event: KeyboardEvent<HTMLElement>): void => {
    if (stage === null) return;
    const isCommand = event.ctrlKey || event.metaKey;
    const item = tabStop(stage.rows, focus, stage);
    if (item === null) return;
    if (isCommand) {
      const ref = event.key === " " && keyHold?.isHolding() !== true ? refOf(item) : null;
      if (ref === null) return;
      session.selectMany(toggled(selectedRefs(session.store.get()), ref));
      event.preventDefault();
      event.stopPropagation();
      return;
    }
    if (keyHold?.isHolding() === true ? held(event) : free(event, stage, item)) {
      event.preventDefault();
      event.stopPropagation();
    }
  };

  return onKeyDown;
};
