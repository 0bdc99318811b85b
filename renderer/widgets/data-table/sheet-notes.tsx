/** What a table that is filled in says of itself: cells that were refused, and what it takes. */
import { Button } from "../button.tsx";
import { Notice } from "../notice.tsx";
import type { CellRefusal } from "./sheet.ts";

const MAX_SHOWN = 8;

interface RefusalsProps {
  readonly refusals: readonly CellRefusal[];
  readonly onDismiss: () => void;
}

export const Refusals = ({ refusals, onDismiss }: RefusalsProps) => {
  if (refusals.length === 0) return null;
  return (
    <Notice tone="warning">
      <p className="sheet-refused">Nothing was written. {refusals.length === 1 ? "" : "What cannot be taken:"}</p>
      <ul className="sheet-refusals">
        {refusals.slice(0, MAX_SHOWN).map(({ where, reason }) => (
          <li key={`${where} ${reason}`}>
            <strong>{where}</strong>: {reason}
          </li>
        ))}
        {refusals.length > MAX_SHOWN && <li>and {refusals.length - MAX_SHOWN} more.</li>}
      </ul>
      <Button look="quiet" onPress={onDismiss}>
        Dismiss
      </Button>
    </Notice>
  );
};
