/** A button that opens the dialog to add one kind of thing. */
import { useState } from "react";
import type { EntityKind } from "../../app/entity/entities.ts";
import { kindWords } from "../../app/ledger/change-line.ts";
import { useApp } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { AddDialog } from "./add-dialog.tsx";
import { READ_ONLY } from "../widgets/unable.ts";

export const AddButton = ({ kind, nearId = null }: { kind: EntityKind; nearId?: string | null }) => {
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const [isOpen, setOpen] = useState(false);
  return (
    <>
      <Button look="quiet" unable={isReadOnly ? READ_ONLY : null} onPress={() => setOpen(true)}>
        Add {kindWords[kind]}…
      </Button>
      {isOpen && <AddDialog kind={kind} nearId={nearId} onClose={() => setOpen(false)} />}
    </>
  );
};
