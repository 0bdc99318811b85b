/** The body of a view made of tables: scrolls as one sheet, with room around. */
import type { ReactNode } from "react";
import "./view-sheet.css";

export const ViewSheet = ({ children }: { children: ReactNode }) => <div className="view-sheet">{children}</div>;

/** One table or text within the sheet. */
export const ViewPart = ({ children }: { children: ReactNode }) => <section className="view-part">{children}</section>;
