/** Beside every instant in an answer, ms UTC, the same as ISO 8601 text: `loadAt` gets `loadAtIso`. */

/** Whether a property of this name is an instant, or a list of them. Names of instants end in `At`. */
export const isInstantName = (name: string): boolean => name === "at" || /[a-z0-9]At$/.test(name);

/** The name beside it. */
export const isoName = (name: string): string => `${name}Iso`;

/** The furthest that a Date goes, ms: what lies beyond it is no instant. */
const FURTHEST_MS = 8.64e15;

const isoOf = (at: unknown): string | null =>
  typeof at === "number" && Math.abs(at) <= FURTHEST_MS ? new Date(at).toISOString() : null;

const beside = (value: unknown): string | null | readonly (string | null)[] =>
  Array.isArray(value) ? value.map(isoOf) : isoOf(value);

/** A copy of plain data with the texts added; what is no instant (null: not known) has null beside it. */
export const withIsoInstants = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(withIsoInstants);
  if (typeof value !== "object" || value === null || ArrayBuffer.isView(value)) return value;
  const isInstant = (name: string, held: unknown): boolean =>
    isInstantName(name) &&
    (held === null || typeof held === "number" || (Array.isArray(held) && held.every((at) => typeof at === "number")));
  return Object.fromEntries(
    Object.entries(value).flatMap(([name, held]): [string, unknown][] =>
      isInstant(name, held)
        ? [
            [name, held],
            [isoName(name), beside(held)],
          ]
        : [[name, withIsoInstants(held)]],
    ),
  );
};
