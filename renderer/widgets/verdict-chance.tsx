/** The probability beside a verdict; grey and in italics while it is of the plan as it was. */
import type { SupplyGlance } from "../../app/supply/answer.ts";
import { chanceSentence, verdictChance } from "../../app/risk/verdict-chance.ts";
import type { ShownRisk } from "../state/use-risk.ts";

interface ChanceProps extends Pick<ShownRisk, "answer" | "isCurrent"> {
  readonly glance: SupplyGlance;
  /** The figure alone, with the rest as its title; or the whole sentence. */
  readonly form: "figure" | "sentence";
}

export const VerdictChanceWords = ({ answer, isCurrent, glance, form }: ChanceProps) => {
  const chance = answer === null ? null : verdictChance(answer, glance);
  if (chance === null) return null;
  const old = isCurrent ? "" : " Of the plan as it was; the new one is on its way.";
  const sentence = `${chanceSentence(chance)}${old}`;
  const look = isCurrent ? "verdict-chance" : "verdict-chance verdict-chance-old";
  return form === "sentence" ? (
    <p className={look}>{sentence}</p>
  ) : (
    <span className={`${look} figures`} title={sentence}>
      {chance.figure}
    </span>
  );
};
