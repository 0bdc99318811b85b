/** Finds a number that JSON cannot carry. */

/** Path of the first NaN or infinite number in plain data, "input.asOfAt"; null: there is none. */
export const nonFiniteField = (value: unknown, path = ""): string | null => {
  if (typeof value === "number") return Number.isFinite(value) ? null : path;
  if (typeof value !== "object" || value === null) return null;
  for (const [key, part] of Object.entries(value)) {
    const found = nonFiniteField(part, path === "" ? key : `${path}.${key}`);
    if (found !== null) return found;
  }
  return null;
};
