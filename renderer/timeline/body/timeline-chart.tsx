/** The timeline as a chart: canvases below, items for focus above, brush, date at the cursor, hint at the pointer. */
import { useEffect, useMemo, useRef, useState } from "react";
import { formatWithWeekday } from "../../format/instant.ts";
import { useApp, useSession } from "../../state/use-session.ts";
import { moveLabel } from "../drag/hold.ts";
import { HEAD_HEIGHT } from "../layout/head.ts";
import type { TimelineItem } from "../layout/items.ts";
import { type PointerReports, listenToPointer } from "../pointer/pointer.ts";
import { consequences } from "../words/consequence.ts";
import { movedModel } from "../drag/moved-model.ts";
import { ItemLayer, type FocusPlace } from "./item-layer.tsx";
import { ItemMenu, type MenuAsked } from "./item-menu.tsx";
import { createKeyHold } from "./key-hold.ts";
import { OverviewBrush } from "./overview-brush.tsx";
import { createReadout } from "./readout.ts";
import type { Stage } from "./stage.ts";
import { summaryWords } from "../words/summary.ts";
import { useItemKeys } from "./use-item-keys.ts";
import { useSize } from "./use-size.ts";
import { useStage } from "./use-stage.ts";

/** Counts renderings under a mark of this name, so that a test can see that a drag causes none. */
const RENDER_MARK = "timeline-render";

export const TimelineChart = () => {
  const session = useSession();
  const within = useRef<HTMLDivElement>(null);
  const scroller = useRef<HTMLDivElement>(null);
  const body = useRef<HTMLDivElement>(null);
  const layer = useRef<HTMLDivElement>(null);
  const head = useRef<HTMLCanvasElement>(null);
  const base = useRef<HTMLCanvasElement>(null);
  const active = useRef<HTMLCanvasElement>(null);
  const date = useRef<HTMLDivElement>(null);
  const hint = useRef<HTMLDivElement>(null);
  const refs = useMemo(() => ({ within, head, base, active }), []);
  const selection = useApp((state) => state.selection);
  const [focus, setFocus] = useState<FocusPlace | null>(null);
  const [menu, setMenu] = useState<MenuAsked | null>(null);
  const current = useRef<Stage | null>(null);
  const isHeld = useRef(false);

  const reports = useMemo((): PointerReports => {
    const { store } = session;
    const readout = createReadout({ date, hint, within });
    return {
      stage: () => current.current,
      isReadOnly: () => store.get().ledger?.readOnlyBecause !== null,
      select: (hit) => {
        if (hit === null) return session.select(null);
        setFocus({ rowId: hit.item.rowId, id: hit.item.id });
        if (hit.item.kind !== "level") session.select({ kind: hit.item.kind, id: hit.item.id });
      },
      stretch: (timeWindow) => store.set({ timeWindow }),
      drop: (model, grab, change) => {
        const { massUnit } = store.get();
        const words = consequences(model.plan, model.glance, movedModel(model, change).glance, massUnit);
        session.announce(`${moveLabel(model, grab)}. ${words}`);
        void session.edit(moveLabel(model, grab), [change]).then((reply) => {
          if (!reply.ok) session.fail(reply.failure);
        });
      },
      refuse: (why) => session.tell("information", why),
      addAt: (lane, at) => {
        const action = lane.kind === "sorties" ? "plan.addSortie" : "plan.addFlight";
        session.openDialog(action, { at: Math.round(at / 3_600_000) * 3_600_000 });
      },
      hover: (x, y, hit) => {
        const stage = current.current;
        if (stage !== null)
          readout.show(x, y, formatWithWeekday(stage.frame.scale.at(x)), hit?.item.words ?? null, stage.frame.scale);
      },
      leave: readout.hide,
      holding: (isHolding) => {
        isHeld.current = isHolding;
        within.current?.toggleAttribute("data-holding", isHolding);
      },
    };
  }, [session]);

  const keyHold = useMemo(() => createKeyHold({ ...reports, say: session.announce }), [reports, session]);
  const size = useSize(scroller);
  const stage = useStage(refs, size, () => {
    keyHold.putBack();
    if (isHeld.current) body.current?.dispatchEvent(new PointerEvent("pointercancel"));
  });
  current.current = stage;
  performance.mark(RENDER_MARK);

  useEffect(() => {
    performance.clearMarks(RENDER_MARK);
    return body.current === null ? undefined : listenToPointer(body.current, reports);
  }, [reports]);

  const choose = (item: TimelineItem): void => {
    if (item.kind !== "level") return session.select({ kind: item.kind, id: item.id });
    const tank = stage?.model.levels.find((level) => level.propellant.id === item.id)?.tanks[0];
    if (tank !== undefined) session.select({ kind: "tank", id: tank.id });
  };
  const askMenu = (item: TimelineItem, x: number, y: number): void => {
    if (item.kind === "level") return;
    choose(item);
    setMenu({ kind: item.kind, x, y });
  };
  const keys = useItemKeys({ stage, focus, setFocus, layer, keyHold, choose, askMenu });

  return (
    <div ref={within} className="timeline-chart">
      <p id="timeline-summary" className="unseen">
        {stage === null ? "" : summaryWords(stage.model)}
      </p>
      <div className="timeline-head" style={{ height: HEAD_HEIGHT }}>
        <canvas ref={head} aria-hidden="true" />
        {stage !== null && <OverviewBrush stage={stage} />}
        <div ref={date} className="cursor-date figures" aria-hidden="true" hidden />
      </div>
      <div ref={scroller} className="timeline-scroller">
        {/* eslint-disable-next-line jsx-a11y/no-static-element-interactions -- the items in the layer are the way by keyboard */}
        <div
          ref={body}
          className="timeline-body"
          style={{ height: stage?.place.height ?? "100%" }}
          onContextMenu={(event) => {
            event.preventDefault();
            const found = keys.itemAt(event);
            if (found !== null) askMenu(found.item, found.x, found.y);
          }}
        >
          <canvas ref={base} aria-hidden="true" />
          <canvas ref={active} aria-hidden="true" />
          {stage !== null && (
            <ItemLayer
              stage={stage}
              layer={layer}
              focus={focus}
              selectedId={selection?.id ?? null}
              onFocus={setFocus}
              onKeyDown={keys.onKeyDown}
              onBlur={keyHold.putBack}
              onChoose={choose}
            />
          )}
          {menu !== null && <ItemMenu asked={menu} close={() => setMenu(null)} />}
        </div>
      </div>
      <div ref={hint} className="pointer-hint" aria-hidden="true" hidden />
    </div>
  );
};
