/** A supply status: its shape drawn, its word beside it. */
import type { SupplyStatus } from "../../app/supply/answer.ts";
import "./marks.css";

/** Full disc, half disc, open ring with a bar, open ring. */
const shapes: Readonly<Record<SupplyStatus, string>> = {
  supplied: "M7 1.5a5.5 5.5 0 1 1 0 11a5.5 5.5 0 1 1 0 -11z",
  thin: "M7 1.5a5.5 5.5 0 0 0 0 11z",
  short: "M3.4 10.6 10.6 3.4",
  "not stated": "",
};

interface StatusMarkProps {
  readonly status: SupplyStatus;
  readonly hasWord?: boolean;
  /** More than the status alone: "short, stands down". */
  readonly words?: string;
}

export const StatusMark = ({ status, hasWord = true, words = status }: StatusMarkProps) => (
  <span className={`status-mark status-${status.replace(" ", "-")}`}>
    <svg viewBox="0 0 14 14" {...(hasWord ? { "aria-hidden": true } : { role: "img", "aria-label": status })}>
      {status !== "supplied" && <circle cx="7" cy="7" r="5.5" className="status-ring" />}
      <path d={shapes[status]} className={status === "short" ? "status-bar" : "status-fill"} />
    </svg>
    {hasWord && words}
  </span>
);
