/** A table of one kind of thing: select a row to edit it in the inspector, add with the button above. */
import type { ReactNode } from "react";
import type { Entity, EntityKind } from "../../app/entity/entities.ts";
import { useApp, useSession } from "../state/use-session.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { AddButton } from "./add-button.tsx";

interface EntityTableProps<K extends EntityKind> {
  readonly kind: K;
  readonly caption: string;
  readonly columns: readonly Column<Entity<K>>[];
  readonly rows: readonly Entity<K>[];
  readonly empty: ReactNode;
  readonly nearId?: string | null;
  readonly hasAdd?: boolean;
}

export const EntityTable = <K extends EntityKind>(props: EntityTableProps<K>) => {
  const { kind, hasAdd = true, nearId = null } = props;
  const session = useSession();
  const selection = useApp((state) => state.selection);
  return (
    <DataTable
      caption={props.caption}
      columns={props.columns}
      rows={props.rows}
      rowId={(row) => row.id}
      selectedId={selection?.kind === kind ? selection.id : null}
      onSelect={(row) => session.select({ kind, id: row.id })}
      empty={props.empty}
      {...(hasAdd ? { tools: <AddButton kind={kind} nearId={nearId} /> } : {})}
    />
  );
};
