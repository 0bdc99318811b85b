/** What the ledger's own records say of slips and losses, offered to be stated; nothing is taken by itself. */
import type { Change } from "../../app/entity/entities.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { inputTitle } from "../../app/risk/input-words.ts";
import type { ObservedInput } from "../../app/risk/observed.ts";
import { uniqueId } from "../names/new-id.ts";
import { useQuestion } from "../state/use-question.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { namesOf } from "./names.ts";
import { READ_ONLY } from "../widgets/unable.ts";

/** Flights of which the records do not say when they were first planned. */
const leftOutWords = (count: number): string => {
  if (count === 0) return "";
  return count === 1
    ? "; one more says nothing, for when it was planned is not known"
    : `; ${String(count)} more say nothing, for when they were planned is not known`;
};

export const ObservedOffers = ({ plan }: { plan: PlanSnapshot }) => {
  const session = useSession();
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const { value: offers } = useQuestion("observed", "risk.observed", { planCaseId: plan.planCase.id });
  const nameOf = namesOf(plan);
  const state = async ({ uncertainty, source }: ObservedInput): Promise<void> => {
    const title = inputTitle(uncertainty, nameOf);
    const same = plan.riskInputs.find(
      (row) =>
        row.uncertainty.quantity === uncertainty.quantity &&
        JSON.stringify(row.uncertainty.of) === JSON.stringify(uncertainty.of),
    );
    const taken = new Set(plan.riskInputs.map(({ id }) => id));
    const id = same?.id ?? uniqueId(title, "input", taken, `${plan.planCase.id}.`);
    const value = { id, planCaseId: plan.planCase.id, uncertainty, source, note: same?.note ?? "" };
    const changes: readonly Change[] = [{ op: "put", kind: "riskInput", value }];
    const reply = await session.edit(`State ${title}`.slice(0, 120), changes);
    if (reply.ok) session.select({ kind: "riskInput", id });
    else session.fail(reply.failure);
  };
  if (offers === null || offers.length === 0) return null;
  return (
    <ul className="sentence-list" aria-label="From the ledger’s own records">
      {offers.map((offer) => (
        <li key={`${offer.words} ${offer.source}`}>
          {inputTitle(offer.uncertainty, nameOf)}, from the records: {offer.words}
          {leftOutWords(offer.leftOut)}.{" "}
          <Button look="link" unable={isReadOnly ? READ_ONLY : null} onPress={() => void state(offer)}>
            State this
          </Button>
        </li>
      ))}
    </ul>
  );
};
