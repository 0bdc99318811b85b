/** What every chart has around it: its menu, at a quiet button, at the other mouse button, and by Shift+F10. */
import { type MouseEvent, type ReactNode, useEffect, useId, useState } from "react";
import type { ActionId } from "../../app/contract/actions.ts";
import { ActionMenu } from "../actions/action-menu.tsx";
import { useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { type ChartSource, useCharts } from "./chart-list.ts";

/** What can be done with a chart. */
export const chartActions: readonly ActionId[] = ["chart.copy", "chart.savePng", "chart.saveSvg"];

interface ChartPlaceProps {
  readonly source: ChartSource;
  readonly children: ReactNode;
}

export const ChartPlace = ({ source, children }: ChartPlaceProps) => {
  const id = useId();
  const charts = useCharts();
  const { platform } = useSession().client.host;
  const [menuAt, setMenuAt] = useState<{ x: number; y: number } | null>(null);
  useEffect(() => charts.add(id, source), [charts, id, source]);
  const ask = (x: number, y: number): void => {
    charts.touch(id);
    setMenuAt({ x, y });
  };
  const onContextMenu = (event: MouseEvent<HTMLElement>): void => {
    event.preventDefault();
    const box = event.currentTarget.getBoundingClientRect();
    ask(event.clientX - box.left, event.clientY - box.top);
  };
  return (
    // eslint-disable-next-line jsx-a11y/no-static-element-interactions -- the button inside opens the same menu
    <div
      className="chart-place"
      onPointerDown={() => charts.touch(id)}
      onFocus={() => charts.touch(id)}
      onContextMenu={onContextMenu}
    >
      {children}
      <div className="chart-button">
        <Button
          look="quiet"
          aria-label={`Copy or save the chart: ${source.title}`}
          aria-haspopup="menu"
          onPress={({ target }) => {
            const button = target as HTMLElement;
            const place = button.closest(".chart-place")?.getBoundingClientRect();
            const box = button.getBoundingClientRect();
            if (place !== undefined) ask(box.left - place.left, box.bottom - place.top);
          }}
        >
          ⋯
        </Button>
      </div>
      {menuAt !== null && (
        <ActionMenu
          label={source.title}
          ids={chartActions}
          platform={platform}
          at={menuAt}
          close={() => setMenuAt(null)}
        />
      )}
    </div>
  );
};
