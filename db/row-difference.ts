/**
 * What the edit history keeps of a changed row: of each state, the properties in which they differ, and a mark of the
 * whole. A row that is new or removed is kept whole, and so are rows of steps from before this was so.
 */
import { createHash } from "node:crypto";
import type { Image } from "./row-image.ts";

/** Beside the properties of a kept difference: by which the whole row is known again. */
export const WHOLE = "#";

type Row = { readonly [property: string]: unknown };

const text = (value: unknown): string => JSON.stringify(value ?? null);

const rowOf = (image: Image): Row => image as unknown as Row;

/** The first 32 bits of the row's SHA-256: enough to notice a row that was changed by other means. */
const markOf = (row: Row): string => createHash("sha256").update(JSON.stringify(row)).digest("hex").slice(0, 8);

const pick = (row: Row, properties: readonly string[]): string =>
  JSON.stringify({
    ...Object.fromEntries(properties.map((property) => [property, row[property] ?? null])),
    [WHOLE]: markOf(row),
  });

/** The two texts to be kept; null: there was, or is, no row. */
export const differenceOf = (
  before: Image | null,
  after: Image | null,
): { readonly before: string | null; readonly after: string | null } => {
  if (before === null || after === null)
    return { before: before && JSON.stringify(before), after: after && JSON.stringify(after) };
  const [old, next] = [rowOf(before), rowOf(after)];
  const differing = [...new Set([...Object.keys(old), ...Object.keys(next)])].filter(
    (property) => text(old[property]) !== text(next[property]),
  );
  return { before: pick(old, differing), after: pick(next, differing) };
};

/**
 * The row, and the same row as older forms had it: a property is only ever added at the end, and says nothing (null) until
 * somebody lets it.
 */
const inItsForms = function* (row: Row): Generator<Row> {
  const properties = Object.entries(row);
  yield row;
  while (properties.length > 1 && properties.at(-1)?.[1] === null) {
    properties.pop();
    yield Object.fromEntries(properties);
  }
};

/** Whether the row is, to the letter, as this kept state says: kept in the present form, or before it was given more properties. */
export const agrees = (row: Image | null, kept: string | null): boolean => {
  if (row === null || kept === null) return row === null && kept === null;
  const mark = (JSON.parse(kept) as Row)[WHOLE];
  const isKept = (form: Row): boolean => (mark === undefined ? JSON.stringify(form) === kept : markOf(form) === mark);
  for (const form of inItsForms(rowOf(row))) if (isKept(form)) return true;
  return false;
};

/** The row brought to a kept state; null: removed. */
export const withDifference = (row: Image | null, kept: string | null): Image | null => {
  if (kept === null) return null;
  const { [WHOLE]: mark, ...properties } = JSON.parse(kept) as Row;
  return (mark === undefined ? properties : { ...row, ...properties }) as unknown as Image;
};
