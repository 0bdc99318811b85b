/** How the step of a merge is called in the edit history; its undo is known by it. */
export const MERGE_LABEL = "Merge records";
