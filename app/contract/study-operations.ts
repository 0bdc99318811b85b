/** The part of the contract that is about studies. */
import { z } from "zod";
import type { StudyRun } from "../study/study-run.ts";
import { gives, question } from "./operation.ts";

export const studyOperations = {
  "study.run": question(
    "Compute what is open of the study in a folder, or one shard of it; what is whole is kept as it goes",
    z.strictObject({ folder: z.string().min(1).max(4096), shard: z.int().min(0).max(999).nullable() }),
    gives<StudyRun>(),
    { lane: "batch" },
  ),
} as const;
