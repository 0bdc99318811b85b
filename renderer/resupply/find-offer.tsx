/** Where a sortie is shown that is not supplied: the way to the flights that would supply it. */
import { useResupplyChoices } from "../state/resupply-choices.ts";
import { findPlan } from "../state/use-resupply.ts";
import { useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";

/** Asks with the choices made before, and goes to where the answer will stand. */
export const FindOffer = () => {
  const session = useSession();
  const choices = useResupplyChoices();
  return (
    <Button
      onPress={() => {
        findPlan(session, choices);
        session.show("resupply");
      }}
    >
      Find flights for it
    </Button>
  );
};
