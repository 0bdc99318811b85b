/** The point that is looked at: its values, what was found there, and the way to a plan case of its own. */
import { columnWords } from "../../app/study/column-words.ts";
import type { StudyAnswer } from "../../app/study/study-answer.ts";
import { cellAt } from "../../app/study/study-table.ts";
import { nextName, uniqueId } from "../names/new-id.ts";
import type { Session } from "../state/session.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { READ_ONLY } from "../widgets/unable.ts";
import { capitalised } from "../../app/words/counted.ts";
import { cellWords, pointWords } from "./point-columns.ts";

interface PointPartProps {
  readonly answer: StudyAnswer;
  readonly row: number | null;
  readonly isOld: boolean;
}

const MAX_NAME = 80;
/** The figures that a sentence holds; the table has all. */
const MAX_SAID = 6;

const openCase = async (session: Session, answer: StudyAnswer, row: number): Promise<void> => {
  const { ledger } = session.store.get();
  if (ledger === null) return;
  const names = new Set(ledger.planCases.map(({ name }) => name));
  const wanted = `${answer.planCase}: ${pointWords(answer, row, "auto")}`.slice(0, MAX_NAME - 4).trim();
  const name = names.has(wanted) ? nextName(wanted, names) : wanted;
  const newId = uniqueId("study point", "case", new Set(ledger.planCases.map(({ id }) => id)));
  const values = answer.inputs.map((_, input) => Number(cellAt(answer.rows, row, input)));
  const reply = await session.command("study.open", {
    planCaseId: answer.planCaseId,
    asked: answer.asked,
    values,
    newId,
    name,
  });
  if (!reply.ok) return session.fail(reply.failure);
  session.chooseCase(newId);
  session.compareWith(answer.planCaseId);
  session.show("supply");
  session.tell("information", `${name} is a plan case now, beside ${answer.planCase}.`);
};

export const PointPart = ({ answer, row, isOld }: PointPartProps) => {
  const session = useSession();
  const unit = useApp((state) => state.massUnit);
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  if (row === null)
    return (
      <p className="form-advice">
        Press a point in the picture, or choose a row of the table, to look at it by itself.
      </p>
    );
  const outcomes = answer.columns
    .map((_, column) => column)
    .slice(answer.inputs.length, answer.inputs.length + MAX_SAID);
  return (
    <section className="study-point" aria-label="Point">
      <p aria-live="polite" className="figures">
        <strong>{capitalised(pointWords(answer, row, unit))}.</strong>{" "}
        {capitalised(
          outcomes.map((column) => `${columnWords(answer, column)} ${cellWords(answer, row, column, unit)}`).join("; "),
        )}
        .
      </p>
      <Button
        unable={isReadOnly ? READ_ONLY : isOld ? "The plan has changed since: run the study again." : null}
        onPress={() => void openCase(session, answer, row)}
      >
        Open as a plan case
      </Button>
    </section>
  );
};
