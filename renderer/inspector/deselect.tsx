/** Selects nothing: the inspector then says what the plan holds, or what an empty ledger needs next. */
import { useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";

export const Deselect = () => {
  const session = useSession();
  return (
    <Button look="quiet" aria-label="Clear selection" onPress={() => session.select(null)}>
      <svg viewBox="0 0 14 14" aria-hidden="true">
        <path d="M3 3 11 11M11 3 3 11" />
      </svg>
    </Button>
  );
};
