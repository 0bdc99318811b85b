/** What a study needs beside its plan. */
import type { StudyAsked } from "./question.ts";

/** Whether the linear solver is needed. */
export const asksResupply = ({ ask }: StudyAsked): boolean => ask.some(({ kind }) => kind === "resupply");
