/** Reads the body of a request, up to a limit. */
import type { IncomingMessage } from "node:http";
import { PlanningError } from "../../app/ground/failure.ts";
import { readJson, UnreadableJson } from "../../app/format/read-json.ts";

/** JSON questions: an import's text (64 million characters, up to four bytes each in rare scripts; half is plenty). */
export const MAX_JSON_BYTES = 130_000_000;
/** The service takes no more in one question. */
const MAX_JSON_VALUES = 2_000_000;
/** An uploaded ledger file. */
export const MAX_FILE_BYTES = 1_000_000_000;

/** Throws "invalid input" as soon as more than `most` bytes are announced or come. */
export const readBody = async (request: IncomingMessage, most: number): Promise<Buffer> => {
  const tooLarge = new PlanningError(
    "invalid input",
    `This is larger than ${Math.round(most / 1_000_000)} MB, the most that is taken here.`,
  );
  if (Number(request.headers["content-length"] ?? 0) > most) throw tooLarge;
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    size += chunk.length;
    if (size > most) throw tooLarge;
    chunks.push(chunk);
  }
  return Buffer.concat(chunks);
};

/** UTF-8 text. Throws "invalid input". */
export const textOf = (bytes: Buffer): string => {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new PlanningError("invalid input", "This is not text in UTF-8.");
  }
};

/** JSON as unknown data. Throws "invalid input". */
export const jsonOf = (bytes: Buffer): unknown => {
  const text = textOf(bytes);
  try {
    return readJson(text, MAX_JSON_VALUES);
  } catch (error) {
    if (error instanceof UnreadableJson)
      throw new PlanningError("invalid input", `This cannot be read as JSON: ${error.message}.`);
    throw error;
  }
};
