/** Rules of depots, loss periods and plan cases. */
import { type Rule, need } from "./rule.ts";

const windowsWhole: Rule<"depot"> = (depot) =>
  need(
    (depot.windowPeriodDays === null) === (depot.windowReferenceAt === null),
    depot.windowPeriodDays === null ? "windowPeriodDays" : "windowReferenceAt",
    `${depot.name}: departure windows need both a period and a reference instant, or neither.`,
  );

const windowsOneWay: Rule<"depot"> = (depot) =>
  need(
    depot.windowList === null || depot.windowPeriodDays === null,
    "windowList",
    `${depot.name}: departure windows come from a list or from a period, not from both. Take one of them away.`,
  );

export const depotRules: readonly Rule<"depot">[] = [windowsWhole, windowsOneWay];

const edgesInOrder: Rule<"lossPeriod"> = (period) =>
  need(
    period.fromAt === null || period.untilAt === null || period.fromAt < period.untilAt,
    "untilAt",
    `The loss period “${period.reason}” ends before it begins.`,
  );

export const lossPeriodRules: readonly Rule<"lossPeriod">[] = [edgesInOrder];

const notOnItself: Rule<"planCase"> = (row) =>
  need(row.basedOnId !== row.id, "basedOnId", `${row.name} cannot be based on itself.`);

export const planCaseRules: readonly Rule<"planCase">[] = [notOnItself];
