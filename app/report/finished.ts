/** The finished report: all that its forms are written from. As JSON text it is what the ledger keeps of an issue. */
import { z } from "zod";
import { everyKind } from "../ground/every-kind.ts";
import { PlanningError } from "../ground/failure.ts";
import { instant, label } from "../ground/quantity.ts";
import type { SupplyStatus } from "../supply/answer.ts";
import { issueNote } from "../ledger/report-issue.ts";
import { keptPicture } from "./kept-picture.ts";
import type { Block, Cell, ReportModel, Section } from "./model.ts";

/** How a sortie stood when the report was made. */
export interface ReportedStanding {
  readonly key: string;
  readonly name: string;
  readonly status: SupplyStatus;
}

export interface FinishedReport {
  readonly report: ReportModel;
  /** The plan as iCalendar text. */
  readonly calendar: string;
  readonly sorties: readonly ReportedStanding[];
}

const text = z.string().max(20_000);
const name = z.string().min(1).max(200);
const figure = z.number();

const cell = everyKind<Cell>()(
  z.discriminatedUnion("kind", [
    z.strictObject({ kind: z.literal("text"), text, to: name.optional() }),
    z.strictObject({ kind: z.literal("mass"), kg: figure }),
    z.strictObject({ kind: z.literal("shortage"), kg: figure }),
    z.strictObject({ kind: z.literal("grams"), grams: figure }),
    z.strictObject({ kind: z.literal("number"), value: figure, decimals: z.int().min(0).max(12) }),
    z.strictObject({ kind: z.literal("percent"), value: figure, decimals: z.int().min(0).max(12) }),
    z.strictObject({ kind: z.literal("days"), value: figure, decimals: z.int().min(0).max(12) }),
    // A computed instant may lie between two milliseconds, and beyond what a person may enter.
    z.strictObject({ kind: z.literal("instant"), at: figure }),
    z.strictObject({ kind: z.literal("nothing") }),
  ]),
);

const block = everyKind<Block>()(
  z.discriminatedUnion("kind", [
    z.strictObject({ kind: z.literal("paragraph"), text }),
    z.strictObject({ kind: z.literal("list"), items: z.array(text) }),
    z.strictObject({
      kind: z.literal("verdict"),
      holds: z.boolean(),
      word: name,
      sentence: text,
      chance: z.strictObject({ figure: name, words: text }).optional(),
    }),
    z.strictObject({ kind: z.literal("facts"), items: z.array(z.strictObject({ term: name, text })) }),
    z.strictObject({ kind: z.literal("caution"), text }),
    z.strictObject({ kind: z.literal("chart"), id: name, caption: text, description: text, picture: keptPicture }),
    z.strictObject({
      kind: z.literal("table"),
      id: name,
      caption: text,
      columns: z.array(
        z.strictObject({
          title: text,
          unit: text.nullable(),
          align: z.enum(["start", "end"]),
          weight: z.number().gt(0).max(100),
        }),
      ),
      rows: z.array(z.array(cell)),
      marks: z.array(z.strictObject({ row: z.int().min(0), as: z.enum(["warning", "total"]) })).optional(),
      onPaper: z.strictObject({ rows: z.int().min(1), columns: z.int().min(1) }).optional(),
    }),
  ]),
);

const section: z.ZodType<Section> = z.strictObject({
  id: z.string().regex(/^[a-z0-9-]{1,64}$/),
  title: name,
  blocks: z.array(block),
});

const finishedReport: z.ZodType<FinishedReport> = z.strictObject({
  report: z.strictObject({
    title: name,
    programme: name,
    caseName: label,
    author: name,
    issuedAt: instant,
    issueNumber: z.int().min(1).nullable(),
    asOfAt: instant.optional(),
    note: issueNote,
    inputHash: z.string().regex(/^[0-9a-f]{64}$/),
    booksDigest: z
      .string()
      .regex(/^[0-9a-f]{64}$/)
      .optional(),
    massUnit: z.enum(["t", "kg"]),
    paper: z.enum(["A4", "letter"]),
    sections: z.array(section),
  }),
  calendar: z.string(),
  sorties: z.array(z.strictObject({ key: name, name, status: z.enum(["supplied", "thin", "short", "not stated"]) })),
});

/** The text that is kept of an issue. */
export const finishedText = (finished: FinishedReport): string => JSON.stringify(finished);

/** Reads it back, strictly. Throws "refused": an issue that came with a document may hold anything at all. */
export const parseFinished = (content: string): FinishedReport => {
  try {
    return finishedReport.parse(JSON.parse(content));
  } catch {
    throw new PlanningError("refused", "This issue cannot be printed: its content is not that of a report.");
  }
};
