/** The part of the contract that is about resupply. */
import type { ResupplyAnswer, ResupplyBracket } from "../resupply/answer.ts";
import type { LeaveByAnswer } from "../resupply/leave-by-answer.ts";
import { type ProposalRisk, proposalRiskAsked } from "../resupply/proposal-risk.ts";
import { resupplyAsked } from "../resupply/asked.ts";
import { type RepairAnswer, repairAsked } from "../resupply/repair-answer.ts";
import { proposalTaken, proposalTakenHere } from "../resupply/take-proposal.ts";
import type { LedgerInfo } from "../ledger/ledger-view.ts";
import { z } from "zod";
import { id } from "../ground/quantity.ts";
import { command, gives, question } from "./operation.ts";

export const resupplyOperations = {
  "resupply.plan": question(
    "The tanker flights that keep the sorties supplied, and what is proved of them",
    resupplyAsked.extend({ planCaseId: id }),
    gives<ResupplyAnswer>(),
    { partial: gives<ResupplyBracket>(), lane: "batch" },
  ),
  "resupply.leaveBy": question(
    "When each planned flight must leave at the latest, and may at the earliest, alone and with its class",
    z.strictObject({ planCaseId: id }),
    gives<LeaveByAnswer>(),
    { lane: "batch" },
  ),
  "resupply.risk": question(
    "How likely the plan is to hold with and without a resupply proposal, under the same draws",
    proposalRiskAsked,
    gives<ProposalRisk>(),
  ),
  "resupply.repair": question(
    "After a slip or a loss, the least change of what is not firm that keeps every sortie supplied",
    repairAsked.extend({ planCaseId: id }),
    gives<RepairAnswer>(),
  ),
  "resupply.take": command(
    "A new plan case with the flights of a resupply proposal, as one step that can be undone",
    proposalTaken,
    gives<LedgerInfo>(),
  ),
  "resupply.takeHere": command(
    "Chosen flights of a resupply proposal into the plan case itself, as one step that can be undone",
    proposalTakenHere,
    gives<LedgerInfo>(),
  ),
} as const;
