/** The brush over the whole campaign: drag it to pan, its ends to zoom, beside it to draw a new one. For the pointer;
 * the keys of the timeline do the same. */
import { missingCase } from "../../../app/ground/missing-case.ts";
import { type PointerEvent, useRef } from "react";
import { type Stretch, clampStretch, panBy } from "../../../app/picture/time-scale.ts";
import { useSession } from "../../state/use-session.ts";
import { overviewScale } from "../layout/head.ts";
import { HEAD } from "../layout/place.ts";
import type { Stage } from "./stage.ts";

type Part = "from" | "until" | "body" | "new";

const REACH = 6;

const partAt = (x: number, from: number, until: number): Part => {
  if (Math.abs(x - from) <= REACH) return "from";
  if (Math.abs(x - until) <= REACH) return "until";
  return x > from && x < until ? "body" : "new";
};

export const OverviewBrush = ({ stage }: { stage: Stage }) => {
  const { store } = useSession();
  const press = useRef<{ part: Part; x: number; from: Stretch } | null>(null);
  const { whole } = stage.model;
  const scale = overviewScale(stage.model, stage.place.width);
  const shown = stage.frame.scale;
  const left = scale.x(shown.fromAt);
  const right = scale.x(shown.untilAt);
  const isWhole = right - left >= scale.right - scale.left - 1;

  const pixel = (event: PointerEvent<HTMLElement>): number =>
    event.clientX - event.currentTarget.getBoundingClientRect().left + scale.left;
  const onPointerDown = (event: PointerEvent<HTMLElement>): void => {
    if (event.button !== 0) return;
    const x = pixel(event);
    const found = partAt(x, left, right);
    event.currentTarget.setPointerCapture(event.pointerId);
    press.current = { part: found === "body" && isWhole ? "new" : found, x, from: shown };
  };
  const onPointerMove = (event: PointerEvent<HTMLElement>): void => {
    const held = press.current;
    if (held === null) return;
    const x = Math.min(Math.max(pixel(event), scale.left), scale.right);
    store.set({ timeWindow: stretched(held, x) });
  };
  const stretched = ({ part, x: startX, from }: { part: Part; x: number; from: Stretch }, x: number): Stretch => {
    switch (part) {
      case "body":
        return panBy(from, scale.at(x) - scale.at(startX), whole);
      case "new":
        return clampStretch({ fromAt: scale.at(Math.min(startX, x)), untilAt: scale.at(Math.max(startX, x)) }, whole);
      case "from":
        return clampStretch({ fromAt: Math.min(scale.at(x), from.untilAt), untilAt: from.untilAt }, whole);
      case "until":
        return clampStretch({ fromAt: from.fromAt, untilAt: Math.max(scale.at(x), from.fromAt) }, whole);
      default:
        return missingCase(part);
    }
  };
  const onPointerUp = (): void => {
    press.current = null;
  };
  return (
    <div
      className="brush-ground"
      aria-hidden="true"
      style={{ left: scale.left, width: scale.right - scale.left, height: HEAD.overview }}
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onPointerUp={onPointerUp}
      onPointerCancel={onPointerUp}
      onDoubleClick={() => store.set({ timeWindow: null })}
    >
      {!isWhole && (
        <>
          <div className="brush-veil" style={{ left: 0, width: Math.max(0, left - scale.left) }} />
          <div className="brush-veil" style={{ left: right - scale.left, right: 0 }} />
          <div className="brush" style={{ left: left - scale.left, width: Math.max(2, right - left) }} />
        </>
      )}
    </div>
  );
};
