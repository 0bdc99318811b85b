/** What stands about a plot: rules with their figures, ticks, names. */
import type { Look, Size } from "./look.ts";
import { line, type Shape, words } from "./shape.ts";

/** The box of the data inside a picture. */
export interface Plot {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The plot of a picture that has the look's own margins, or some wider ones. */
export const plotOf = ({ width, height }: Size, { margin }: Look, wider: Partial<Look["margin"]> = {}): Plot => {
  const { left, top, right, foot } = { ...margin, ...wider };
  return { left, top, right: width - right, bottom: height - foot };
};

export interface Mark {
  readonly at: number;
  readonly label: string;
}

/** Rules across at `at`, their figures at the left. */
export const rulesAcross = ({ left, right }: Plot, marks: readonly Mark[], look: Look): readonly Shape[] =>
  marks.flatMap(({ at, label }) => [
    line(left, at, right, at, "rule", look.rule),
    words(left - 0.6 * look.text, at, label, { size: look.text, anchor: "end" }),
  ]);

/** Ticks below at `at`, their figures under them. */
export const ticksUnder = ({ bottom }: Plot, marks: readonly Mark[], look: Look): readonly Shape[] =>
  marks.flatMap(({ at, label }) => [
    line(at, bottom, at, bottom + look.tick, "hairline", look.edge),
    words(at, bottom + 1.2 * look.text, label, { size: look.text, anchor: "middle" }),
  ]);

/** Ticks at the left, their figures beside them. */
export const ticksBeside = ({ left }: Plot, marks: readonly Mark[], look: Look): readonly Shape[] =>
  marks.flatMap(({ at, label }) => [
    line(left - look.tick, at, left, at, "hairline", look.edge),
    words(left - look.tick - 0.4 * look.text, at, label, { size: look.text, anchor: "end" }),
  ]);

/** The plot's foot. */
export const footEdge = ({ left, right, bottom }: Plot, look: Look): Shape =>
  line(left, bottom, right, bottom, "hairline", look.edge);

/** What the figures under the plot count. */
export const footName = ({ left, right, bottom }: Plot, name: string, look: Look): Shape =>
  words((left + right) / 2, bottom + 2.7 * look.text, name, { size: look.text, anchor: "middle" });

/** Notes below the plot's name, a line each. */
export const footNotes = ({ left, bottom }: Plot, notes: readonly string[], look: Look): readonly Shape[] =>
  notes.map((note, place) => words(left, bottom + 4.3 * look.text + place * look.note, note, { size: look.text }));

/** What the plot shows, above its left end. */
export const headName = ({ left, top }: Plot, name: string, look: Look): Shape =>
  words(left, top - 0.9 * look.text, name, { size: look.name, ink: "ink", isBold: true });
