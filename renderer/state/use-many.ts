/** Selecting several rows of a table of flights or of sorties, beside what is selected in others. */
import { useMemo } from "react";
import type { ManyRef } from "./app-state.ts";
import { idsOfMany, selectedRefs, toggled } from "./many.ts";
import { useApp, useSession } from "./use-session.ts";

interface ManyRows<R> {
  readonly selectedIds: ReadonlySet<string>;
  readonly onSelectMany: (rows: readonly R[], how: "toggle" | "range") => void;
}

export const useManyRows = <R>(kind: ManyRef["kind"], idOf: (row: R) => string): ManyRows<R> => {
  const session = useSession();
  const many = useApp((state) => state.many);
  const selectedIds = useMemo(() => idsOfMany(many, kind), [many, kind]);
  return {
    selectedIds,
    onSelectMany: (rows, how) => {
      const refs = rows.map((row) => ({ kind, id: idOf(row) }));
      const [first] = refs;
      if (how === "range") session.selectMany(refs);
      else if (first !== undefined) session.selectMany(toggled(selectedRefs(session.store.get()), first));
    },
  };
};
