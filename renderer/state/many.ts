/** Several flights and sorties selected at once: what a press with Ctrl or Shift makes of what is selected. */
import type { AppState, ManyRef } from "./app-state.ts";

const isSame = (a: ManyRef, b: ManyRef): boolean => a.kind === b.kind && a.id === b.id;

/** The flights and sorties that are selected: several, one, or none. */
export const selectedRefs = ({ many, selection }: Pick<AppState, "many" | "selection">): readonly ManyRef[] => {
  if (many.length > 0) return many;
  return selection !== null && (selection.kind === "flight" || selection.kind === "sortie")
    ? [{ kind: selection.kind, id: selection.id }]
    : [];
};

/** With one more, or without it where it was among them. */
export const toggled = (refs: readonly ManyRef[], ref: ManyRef): readonly ManyRef[] =>
  refs.some((each) => isSame(each, ref)) ? refs.filter((each) => !isSame(each, ref)) : [...refs, ref];

/** Each once, in the order in which they came. */
export const joined = (refs: readonly ManyRef[], more: readonly ManyRef[]): readonly ManyRef[] => [
  ...refs,
  ...more.filter((ref) => !refs.some((each) => isSame(each, ref))),
];

/** Which ids of a kind are selected together with others. */
export const idsOfMany = (many: readonly ManyRef[], kind: ManyRef["kind"]): ReadonlySet<string> =>
  new Set(many.flatMap((ref) => (ref.kind === kind ? [ref.id] : [])));
