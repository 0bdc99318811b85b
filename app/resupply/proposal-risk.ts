/** How likely a plan holds with and without a proposal that no plan case has yet, under the same draws. */
import { id } from "../ground/quantity.ts";
import type { RiskAnswer, RiskDifference } from "../risk/answer.ts";
import { causesAsked } from "../risk/ask-causes.ts";
import { proposalTaken } from "./take-proposal.ts";

export const proposalRiskAsked = proposalTaken
  .pick({ added: true, craft: true, leftOutIds: true, sortiesMoved: true })
  .extend({ planCaseId: id, ...causesAsked.shape });

export interface ProposalRisk {
  readonly present: RiskAnswer;
  readonly proposed: RiskAnswer;
  /** Of the proposal less the present plan: surer than either, because the draws are the same. */
  readonly difference: RiskDifference;
}
