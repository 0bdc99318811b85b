/** What was found, in sentences, first things first; where something cannot be held, what would cure it, with one click. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import type { Cure, ResupplyAnswer } from "../../app/resupply/answer.ts";
import { cureSentence, moreSentences, proofSentence, unheldSentence } from "../../app/resupply/answer-words.ts";
import type { ResupplyAsked } from "../../app/resupply/asked.ts";
import { counted } from "../../app/words/counted.ts";
import { setResupplyChoices } from "../state/resupply-choices.ts";
import { findPlan } from "../state/use-resupply.ts";
import type { Session } from "../state/session.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { READ_ONLY } from "../widgets/unable.ts";

interface AnswerPartProps {
  readonly plan: PlanSnapshot;
  readonly asked: ResupplyAsked;
  readonly answer: ResupplyAnswer;
  readonly isOld: boolean;
}

/** What is asked with a cure that lies in the question; null: it lies in the plan. */
const askedWith = (asked: ResupplyAsked, cure: Cure): Partial<ResupplyAsked> | null => {
  const withClass = (classId: string, change: { hulls?: number; turnaroundDays?: number }): Partial<ResupplyAsked> => ({
    classes: asked.classes.map((row) => (row.classId === classId ? { ...row, ...change } : row)),
  });
  switch (cure.kind) {
    case "flights":
      return { mostFlights: cure.most };
    case "budget":
      return { budget: cure.most };
    case "hull":
      return withClass(cure.classId, { hulls: cure.hulls });
    case "turnaround":
      return withClass(cure.classId, { turnaroundDays: cure.days });
    default:
      return null;
  }
};

const moveSortie = async (
  session: Session,
  plan: PlanSnapshot,
  { sortieId, days }: Extract<Cure, { kind: "later sortie" }>,
): Promise<void> => {
  const sortie = plan.sorties.find(({ id }) => id === sortieId);
  if (sortie === undefined) return;
  const byMs = days * DAY_MS;
  const value = { ...sortie, loadAt: sortie.loadAt + byMs, returnAt: sortie.returnAt + byMs };
  const reply = await session.edit(`${sortie.name} ${String(days)} days later`, [{ op: "put", kind: "sortie", value }]);
  if (!reply.ok) session.fail(reply.failure);
};

/** Tanks and ports belong to every plan case, and to what can be built: they are shown, not changed. */
const CureButton = ({ plan, asked, cure }: { plan: PlanSnapshot; asked: ResupplyAsked; cure: Cure }) => {
  const session = useSession();
  const path = useApp((state) => state.ledger?.path ?? "");
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const change = askedWith(asked, cure);
  if (change !== null)
    return (
      <Button
        look="link"
        onPress={() => {
          setResupplyChoices(path, { ...asked, ...change });
          findPlan(session, { ...asked, ...change });
        }}
      >
        Find plan with it
      </Button>
    );
  if (cure.kind === "later sortie")
    return (
      <Button look="link" unable={isReadOnly ? READ_ONLY : null} onPress={() => void moveSortie(session, plan, cure)}>
        Move the sortie
      </Button>
    );
  const show = (): void => {
    if (cure.kind === "port") return session.select({ kind: "depot", id: cure.depotId });
    if (cure.kind !== "tank") return;
    const tank = plan.tanks
      .filter(({ ownerId, propellantId }) => ownerId === cure.depotId && propellantId === cure.propellantId)
      .toSorted((a, b) => b.maximumFillKg - a.maximumFillKg)[0];
    if (tank !== undefined) session.select({ kind: "tank", id: tank.id });
  };
  return (
    <Button look="link" onPress={show}>
      Show the {cure.kind === "port" ? "depot" : "tank"}
    </Button>
  );
};

export const AnswerPart = ({ plan, asked, answer, isOld }: AnswerPartProps) => {
  const session = useSession();
  const more = moreSentences(plan, answer);
  return (
    <div className={isOld ? "resupply-answer resupply-old" : "resupply-answer"}>
      <output className="resupply-standing">
        {answer.unheld.length > 0 && `${counted(answer.unheld.length, "sortie", "sorties")} cannot be held. `}
        {proofSentence(answer)}
      </output>
      {more.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {answer.unheld.length > 0 && (
        <section aria-label="What cannot be held">
          <h2 className="resupply-heading">Cannot be held</h2>
          <ul className="sentence-list">
            {answer.unheld.map((row) => (
              <li key={row.sortieId}>
                <Button look="link" onPress={() => session.select({ kind: "sortie", id: row.sortieId })}>
                  {unheldSentence(plan, row, answer)}
                </Button>
              </li>
            ))}
          </ul>
          {answer.cures.length > 0 && (
            <>
              <h2 className="resupply-heading">Any one of these would cure it</h2>
              <ul className="sentence-list resupply-cures">
                {answer.cures.map((cure) => {
                  const sentence = cureSentence(plan, cure);
                  return (
                    <li key={sentence}>
                      <span>{sentence}</span>
                      {!isOld && <CureButton plan={plan} asked={asked} cure={cure} />}
                    </li>
                  );
                })}
              </ul>
            </>
          )}
        </section>
      )}
    </div>
  );
};
