/** Something that should be known, in its place on the page. */
import type { ReactNode } from "react";
import "./notice.css";

interface NoticeProps {
  readonly tone: "information" | "warning" | "failure";
  readonly children: ReactNode;
}

const marks = { information: "i", warning: "!", failure: "×" } as const;

export const Notice = ({ tone, children }: NoticeProps) => (
  <div className={`notice notice-${tone}`} role={tone === "information" ? "status" : "alert"}>
    <span className="notice-mark" aria-hidden="true">
      {marks[tone]}
    </span>
    <div>{children}</div>
  </div>
);
