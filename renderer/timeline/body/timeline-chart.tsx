/** The timeline as a chart: canvases below, items for focus above, brush, date at the cursor, hint at the pointer. */
import { type MouseEvent, useEffect, useId, useLayoutEffect, useMemo, useState } from "react";
import type { Stretch } from "../../../app/picture/time-scale.ts";
import { useCharts } from "../../plot/chart-list.ts";
import { useApp, useSession } from "../../state/use-session.ts";
import { HEAD_HEIGHT } from "../layout/head.ts";
import { markRendering } from "../drag/measures.ts";
import { hitTest } from "../layout/hit-test.ts";
import type { TimelineItem } from "../layout/items.ts";
import { summaryWords } from "../words/summary.ts";
import { createControl } from "./control.ts";
import { type FocusPlace, ItemLayer } from "./item-layer.tsx";
import { ItemMenu, type MenuAsked } from "./item-menu.tsx";
import { OverviewBrush } from "./overview-brush.tsx";
import { useFirstSight } from "./use-first-sight.ts";
import { useItemKeys } from "./use-item-keys.ts";
import { levelChart, usePaper, wholeChart } from "./use-paper.ts";
import { useSize } from "../../plot/use-size.ts";
import { useStage } from "./use-stage.ts";

interface TimelineChartProps {
  /** null: the first. */
  readonly depotId: string | null;
  /** All that several depots one below the other show: told apart by their names, on one axis; null: it stands alone. */
  readonly axis: Stretch | null;
}

export const TimelineChart = ({ depotId, axis }: TimelineChartProps) => {
  const session = useSession();
  const summaryId = useId();
  const selection = useApp((state) => state.selection);
  const many = useApp((state) => state.many);
  const [root, setRoot] = useState<HTMLElement | null>(null);
  const [focus, setFocus] = useState<FocusPlace | null>(null);
  const [menu, setMenu] = useState<MenuAsked | null>(null);
  const control = useMemo(() => (root === null ? null : createControl(root, session, setFocus)), [root, session]);
  const charts = useCharts();
  const size = useSize(control?.scroller ?? null);
  const stage = useStage(control?.painter ?? null, size, depotId, axis);
  useLayoutEffect(() => control?.show(stage), [control, stage]);
  useEffect(() => control?.listen(), [control]);
  useFirstSight(control?.scroller ?? null, stage, size.height, selection?.id ?? null);
  useLayoutEffect(markRendering);
  usePaper(stage);

  const selectedIds = useMemo(
    () => new Set(many.length > 0 ? many.map(({ id }) => id) : selection === null ? [] : [selection.id]),
    [many, selection],
  );
  const shownId = stage?.model.depot.id ?? "";
  const choose = (item: TimelineItem): void => {
    if (item.kind !== "level") return session.select({ kind: item.kind, id: item.id });
    const tank = stage?.model.levels.find((level) => level.propellant.id === item.id)?.tanks[0];
    if (tank !== undefined) session.select({ kind: "tank", id: tank.id });
  };
  const focusOn = (place: FocusPlace): void => {
    setFocus(place);
    charts.touch(place.rowId.startsWith("level/") ? levelChart(shownId, place.id) : wholeChart(shownId));
  };
  const askMenu = (item: TimelineItem, x: number, y: number): void => {
    if (item.kind === "level") return askChartMenu(levelChart(shownId, item.id), x, y);
    charts.touch(wholeChart(shownId));
    // What is asked of one of several is asked of them all.
    if (!many.some(({ id }) => id === item.id)) choose(item);
    setMenu({ kind: item.kind, x, y });
  };
  const askChartMenu = (chartId: string, x: number, y: number): void => {
    charts.touch(chartId);
    setMenu({ kind: "chart", x, y });
  };
  const onContextMenu = (event: MouseEvent<HTMLElement>): void => {
    event.preventDefault();
    if (stage === null) return;
    const box = event.currentTarget.getBoundingClientRect();
    const x = event.clientX - box.left;
    const y = event.clientY - box.top;
    const hit = hitTest(stage.rows, x, y);
    const level = stage.place.charts.find((chart) => y >= chart.top && y < chart.top + chart.height);
    if (hit !== null) askMenu(hit.item, x, y);
    else askChartMenu(level === undefined ? wholeChart(shownId) : levelChart(shownId, level.propellantId), x, y);
  };
  const onKeyDown = useItemKeys({ stage, focus, setFocus, root, keyHold: control?.keyHold ?? null, choose, askMenu });

  return (
    <div ref={setRoot} className="timeline-chart">
      <p id={summaryId} className="unseen">
        {stage === null ? "" : summaryWords(stage.model)}
      </p>
      <div className="timeline-head" style={{ height: HEAD_HEIGHT }}>
        <canvas aria-hidden="true" />
        {stage !== null && <OverviewBrush stage={stage} />}
        <div className="cursor-date figures" aria-hidden="true" hidden />
      </div>
      <div className="timeline-scroller">
        {/* eslint-disable-next-line jsx-a11y/no-static-element-interactions -- Shift+F10 in the item layer opens the same menu */}
        <div className="timeline-body" style={{ height: stage?.place.height ?? "100%" }} onContextMenu={onContextMenu}>
          <canvas className="canvas-base" aria-hidden="true" />
          <canvas className="canvas-active" aria-hidden="true" />
          <div className="select-box" aria-hidden="true" hidden />
          {stage !== null && control !== null && (
            <ItemLayer
              stage={stage}
              label={axis !== null ? `Timeline of ${stage.model.depot.name}` : "Timeline"}
              summaryId={summaryId}
              focus={focus}
              selectedIds={selectedIds}
              onFocus={focusOn}
              onKeyDown={onKeyDown}
              onBlur={control.keyHold.putBack}
              onChoose={choose}
            />
          )}
          {menu !== null && <ItemMenu asked={menu} close={() => setMenu(null)} />}
        </div>
      </div>
      <div className="pointer-hint" aria-hidden="true" hidden />
    </div>
  );
};
