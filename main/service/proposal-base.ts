/** What a risk run rests on of a plan that no plan case has yet, with the print under which its answers are kept. */
import { createHash } from "node:crypto";
import { toTypedJson } from "../../app/contract/typed-json.ts";
import type { PlanView } from "../../app/ledger/ledger-view.ts";
import type { RiskBase } from "../../app/risk/ask-risk.ts";

export const proposalBaseOf = ({ plan, readings }: Pick<PlanView, "plan" | "readings">): RiskBase => ({
  plan,
  readings,
  inputHash: createHash("sha256").update(toTypedJson({ plan, readings })).digest("hex"),
});
