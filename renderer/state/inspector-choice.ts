/**
 * When the inspector stands beside the view: with something selected, or where an empty ledger is guided; else the view
 * has the room. A person may put it away, until something else is selected, or keep it.
 */

/** auto: while there is something to show. kept: even with nothing selected. away: put away until the next selection. */
export type InspectorChoice = "auto" | "kept" | "away";

/** Whether it is there. `hasContent`: something is selected, or the ledger still needs guidance. */
export const isInspectorShown = (choice: InspectorChoice, hasContent: boolean): boolean =>
  choice === "kept" || (choice === "auto" && hasContent);

/** What the command "Inspector" makes of it: what is there goes, what is not comes. */
export const toggledInspector = (choice: InspectorChoice, hasContent: boolean): InspectorChoice => {
  if (isInspectorShown(choice, hasContent)) return "away";
  return hasContent ? "auto" : "kept";
};

/** Whatever is selected brings it back. */
export const inspectorAfterSelecting = (choice: InspectorChoice, isSomething: boolean): InspectorChoice =>
  isSomething && choice === "away" ? "auto" : choice;

/** Its width, pixels: no narrower than its forms can be read, no wider than leaves a view. */
export const INSPECTOR_WIDTH = { least: 280, usual: 320, most: 560 } as const;

/** A width that fits, whole pixels; what is no number gives the usual one. */
export const fittingWidth = (width: number): number =>
  Number.isFinite(width)
    ? Math.round(Math.min(Math.max(width, INSPECTOR_WIDTH.least), INSPECTOR_WIDTH.most))
    : INSPECTOR_WIDTH.usual;
