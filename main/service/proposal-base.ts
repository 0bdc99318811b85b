/** What a risk run rests on of a plan that no plan case has yet, with the print under which its answers are kept. */
import type { PlanView } from "../../app/ledger/ledger-view.ts";
import type { RiskBase } from "../../app/risk/ask-risk.ts";
import { digestOf } from "./work/digest.ts";

export const proposalBaseOf = ({ plan, readings }: Pick<PlanView, "plan" | "readings">): RiskBase => ({
  plan,
  readings,
  inputHash: digestOf([{ plan, readings }], { after: "", as: "hex" }),
});
