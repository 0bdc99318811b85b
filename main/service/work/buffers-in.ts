/** Finds the buffers in an answer, so that they move to the other thread instead of being copied. */

/** Typed arrays lie in objects and lists; what is deeper than this is copied. */
const MAX_DEPTH = 6;

const collect = (value: unknown, depth: number, found: Set<ArrayBuffer>): void => {
  if (typeof value !== "object" || value === null || depth > MAX_DEPTH) return;
  if (ArrayBuffer.isView(value)) {
    // A view of a part would take the rest along; a shared buffer is not moved.
    if (value.buffer instanceof ArrayBuffer && value.byteLength === value.buffer.byteLength) found.add(value.buffer);
    return;
  }
  if (Array.isArray(value)) {
    // A list of plain numbers or rows holds none as a rule; its first entry tells.
    const first: unknown = value[0];
    if (typeof first === "object" && first !== null) for (const part of value) collect(part, depth + 1, found);
    return;
  }
  for (const part of Object.values(value)) collect(part, depth + 1, found);
};

export const buffersIn = (value: unknown): ArrayBuffer[] => {
  const found = new Set<ArrayBuffer>();
  collect(value, 0, found);
  return [...found];
};
