/** The report as pages of paper. Its pieces are measured once, unseen and at full size; then they are laid on the pages. */
import { useLayoutEffect, useMemo, useRef, useState } from "react";
import { footer } from "../../../app/report/format/subtitle.ts";
import type { PaperSize, ReportModel } from "../../../app/report/model.ts";
import { Leaf } from "./leaf.tsx";
import { type Piece, piecesOf } from "./pieces.ts";
import { paginate } from "./paginate.ts";
import "./paper.css";

/** Pages that were laid out, and for which report. */
export interface Layout {
  readonly report: ReportModel;
  readonly pages: readonly (readonly Piece[])[];
}

interface PagesProps {
  readonly report: ReportModel;
  readonly layout: Layout | null;
  readonly onLayout: (layout: Layout) => void;
}

/** Smaller than this the text cannot be read; larger, and it is no longer a page. */
const LEAST_SCALE = 0.55;
const MAX_SCALE = 1.35;

/** Widths of paper in CSS pixels, of which there are 96 to the inch. */
const paperWidths: Readonly<Record<PaperSize, number>> = { A4: (210 / 25.4) * 96, letter: 8.5 * 96 };

export const Pages = ({ report, layout, onLayout }: PagesProps) => {
  const place = useRef<HTMLDivElement>(null);
  const [scale, setScale] = useState(1);
  const paperWidth = paperWidths[report.paper];
  useLayoutEffect(() => {
    const element = place.current;
    if (element === null || typeof ResizeObserver === "undefined") return undefined;
    const fit = (): void => {
      setScale(Math.min(MAX_SCALE, Math.max(LEAST_SCALE, element.clientWidth / paperWidth)));
    };
    fit();
    const observer = new ResizeObserver(fit);
    observer.observe(element);
    return () => observer.disconnect();
  }, [paperWidth]);
  return (
    <div ref={place} className="leaf-place">
      {layout?.report !== report && <Measure report={report} onLayout={onLayout} />}
      {layout?.pages.map((pieces, index) => (
        <article
          // eslint-disable-next-line react/no-array-index-key -- a page is its number
          key={index}
          className={`leaf-page leaf-${layout.report.paper}`}
          style={{ zoom: scale }}
          aria-label={`Page ${index + 1} of ${layout.pages.length}`}
        >
          <div className="leaf-body">
            <Leaf pieces={pieces} />
          </div>
          <footer className="leaf-foot">
            <span>{footer(layout.report)}</span>
            <span>
              {index + 1} / {layout.pages.length}
            </span>
          </footer>
        </article>
      ))}
    </div>
  );
};

const Measure = ({ report, onLayout }: { report: ReportModel; onLayout: (layout: Layout) => void }) => {
  const sheet = useRef<HTMLDivElement>(null);
  const pieces = useMemo(() => piecesOf(report), [report]);
  useLayoutEffect(() => {
    const body = sheet.current?.querySelector<HTMLElement>(".leaf-body");
    const probe = sheet.current?.querySelector<HTMLElement>(".leaf-probe");
    if (!body || !probe) return;
    const heights = [...body.querySelectorAll("[data-piece]")].map((each) => each.getBoundingClientRect().height);
    onLayout({ report, pages: paginate(pieces, heights, probe.getBoundingClientRect().height || Infinity) });
  }, [report, pieces, onLayout]);
  return (
    <div ref={sheet} className={`leaf-measure leaf-${report.paper}`} aria-hidden="true">
      <div className="leaf-probe" />
      <div className="leaf-body">
        <Leaf pieces={pieces} />
      </div>
    </div>
  );
};
