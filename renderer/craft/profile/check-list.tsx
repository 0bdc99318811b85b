/** The checks of the sheet with their numbers; what is not met stands first and says so in a word and a shape. */
import type { Propellant } from "../../../app/entity/propellant.ts";
import { checkSentence } from "../../../app/sortie/check-sentence.ts";
import type { SheetCheck } from "../../../app/sortie/checks.ts";
import { nameIn } from "../../../app/words/named.ts";

interface CheckListProps {
  readonly checks: readonly SheetCheck[];
  readonly propellants: readonly Propellant[];
  readonly onShow: (at: number) => void;
}

export const CheckList = ({ checks, propellants, onShow }: CheckListProps) => {
  const nameOf = (id: string): string => nameIn(propellants, id);
  const item = (check: SheetCheck, index: number) => {
    const sentence = checkSentence(check, nameOf);
    const { stepIndex } = check;
    return (
      <li key={index} className={check.isMet ? "check-met" : "check-finding"}>
        <span className="check-word">{check.isMet ? "● holds" : "○ finding"}</span>
        {stepIndex === null ? (
          <span>{sentence}</span>
        ) : (
          <button type="button" className="check-step" onClick={() => onShow(stepIndex)}>
            {sentence}
          </button>
        )}
      </li>
    );
  };
  const findings = checks.filter(({ isMet }) => !isMet);
  const met = checks.filter(({ isMet }) => isMet);
  return (
    <section className="check-list" aria-label="Checks">
      <h3>
        {findings.length === 0
          ? "All checks hold"
          : `${String(findings.length)} of ${String(checks.length)} checks fail`}
      </h3>
      <ul>
        {findings.map(item)}
        {met.map((check, i) => item(check, findings.length + i))}
      </ul>
    </section>
  );
};
