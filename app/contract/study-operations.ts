/** The part of the contract that is about studies. */
import { z } from "zod";
import { id, label } from "../ground/quantity.ts";
import type { LedgerInfo } from "../ledger/ledger-view.ts";
import type { EdgeAnswer } from "../study/edge.ts";
import { inputAsked, MAX_INPUTS, studyAsked } from "../study/question.ts";
import type { KeptStudy, ListedStudy } from "../study/kept-study.ts";
import type { StudyAnswer } from "../study/study-answer.ts";
import type { StudyCost } from "../study/study-cost.ts";
import type { StudyRun } from "../study/study-run.ts";
import { command, gives, query, question } from "./operation.ts";

/** The plan case by its id, whatever the study itself says. */
const ofCase = z.strictObject({ planCaseId: id, asked: studyAsked });

const studyNumber = z.strictObject({ number: z.int().min(1).max(1e9) });

export const studyOperations = {
  "study.run": question(
    "Compute what is open of the study in a folder, or one shard of it; what is whole is kept as it goes",
    z.strictObject({ folder: z.string().min(1).max(4096), shard: z.int().min(0).max(999).nullable() }),
    gives<StudyRun>(),
    { lane: "batch" },
  ),
  "study.cost": question(
    "How many points a study has and how long they take here, measured on some of them",
    ofCase,
    gives<StudyCost>(),
  ),
  "study.ask": question(
    "A plan case at many points: a row each, from a point on, told while they come; stopped, the rows so far",
    ofCase.extend({ from: z.int().min(0).max(1e9) }),
    gives<StudyAnswer>(),
    { partial: gives<StudyAnswer>(), lane: "batch" },
  ),
  "study.edges": question(
    "For one input, the value at which each sortie stops being supplied, by bisection on the exact forecast",
    z.strictObject({ planCaseId: id, input: inputAsked, tolerance: z.number().gt(0, "must be above 0") }),
    gives<readonly EdgeAnswer[]>(),
  ),
  "study.keep": command("Keep the study that was just run, whole, in the ledger", ofCase, gives<KeptStudy>()),
  "study.take": command(
    "Keep the merged result of a study folder in the ledger whose plan case it is of",
    z.strictObject({ folder: z.string().min(1).max(4096) }),
    gives<KeptStudy>(),
  ),
  "study.list": query(
    "The studies that the ledger keeps, newest first, and which of them are stale",
    z.strictObject({}),
    gives<readonly ListedStudy[]>(),
  ),
  "study.kept": query("One kept study with its rows", studyNumber, gives<StudyAnswer>()),
  "study.delete": command("Delete a kept study", studyNumber, gives<{ readonly number: number }>()),
  "study.open": command(
    "A point of a study as a new plan case, as one step that can be undone",
    ofCase.extend({ values: z.array(z.number()).min(1).max(MAX_INPUTS), newId: id, name: label }),
    gives<LedgerInfo>(),
  ),
} as const;
