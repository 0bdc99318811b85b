/** What may be recorded of the thing selected, as its state allows. */
import type { ActionId } from "../../app/contract/actions.ts";
import type { Entity, EntityKind } from "../../app/entity/entities.ts";
import { useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";

type Offer = readonly [ActionId, string];

/** The records that can come next. */
export const offersFor = (kind: EntityKind, status: string | undefined): readonly Offer[] => {
  if (kind === "tank") return [["record.reading", "Record a reading…"]];
  if (kind === "depot") return [["record.closing", "Close the month…"]];
  const isAhead = status === "planned" || status === "firm";
  if (kind === "flight") {
    if (isAhead) return [["record.departure", "Record departure…"]];
    if (status !== "departed") return [];
    return [
      ["record.arrival", "Record arrival…"],
      ["record.loss", "Record its loss…"],
    ];
  }
  if (kind === "sortie") {
    if (isAhead)
      return [
        ["record.loading", "Record loading…"],
        ["record.standDown", "Record that it stood down…"],
      ];
    return status === "departed" ? [["record.return", "Record return…"]] : [];
  }
  return [];
};

export const RecordButtons = <K extends EntityKind>({ kind, row }: { kind: K; row: Entity<K> }) => {
  const session = useSession();
  const status = (row as { readonly status?: string }).status;
  return offersFor(kind, status).map(([action, label], index) => (
    <Button
      key={action}
      look={index === 0 ? "primary" : "plain"}
      onPress={() => session.openDialog(action, { subject: { kind, id: row.id } })}
    >
      {label}
    </Button>
  ));
};
