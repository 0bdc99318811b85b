/** What changed since the last issue, and how this case differs from the one it is compared with. */
import { formatDate, formatMinute } from "../../ledger/time.ts";
import type { ReportContext } from "../context.ts";
import type { Block } from "../model.ts";

/** At most so many steps are written out; the journal has them all. */
const MOST_STEPS = 40;

export const changeBlocks = (context: ReportContext): readonly Block[] => [...differences(context), ...steps(context)];

const steps = (context: ReportContext): readonly Block[] => {
  const { changes } = context;
  if (changes.length === 0) return [{ kind: "paragraph", text: "No step of editing since the last issue." }];
  const items = changes
    .slice(0, MOST_STEPS)
    .map(
      (step) =>
        `${formatMinute(step.at)}, ${step.author}: ${step.label}${step.reason === "" ? "" : ` (${step.reason})`}`,
    );
  const left = changes.length - items.length;
  return [
    { kind: "paragraph", text: "Steps of editing since the last issue, the latest first" },
    { kind: "list", items: left > 0 ? [...items, `and ${left} earlier ones, in the journal`] : items },
  ];
};

const differences = (context: ReportContext): readonly Block[] => {
  if (!context.compared) return [];
  const here = context.main.view.plan;
  const there = context.compared.view.plan;
  const items = [
    ...compareByKey(here.flights, there.flights, "departs", (flight) => flight.departAt),
    ...compareByKey(here.sorties, there.sorties, "loads", (sortie) => sortie.loadAt),
    ...context.main.supply.sorties.flatMap((sortie) => {
      const other = context.compared?.supply.sorties.find((each) => each.sortieKey === sortie.sortieKey);
      return other && other.status !== sortie.status
        ? [`${sortie.name} is ${sortie.status} here, ${other.status} there.`]
        : [];
    }),
  ];
  return [
    { kind: "paragraph", text: `Against the plan case “${there.planCase.name}”` },
    {
      kind: "list",
      items: items.length > 0 ? items : ["Both plan cases hold the same flights and sorties on the same dates."],
    },
  ];
};

const compareByKey = <T extends { readonly key: string; readonly name: string }>(
  here: readonly T[],
  there: readonly T[],
  verb: string,
  at: (each: T) => number,
): readonly string[] => {
  const others = new Map(there.map((each) => [each.key, each]));
  const keys = new Set(here.map((each) => each.key));
  return [
    ...here.flatMap((each) => {
      const other = others.get(each.key);
      if (!other) return [`${each.name} is planned here only (${verb} ${formatDate(at(each))}).`];
      return at(other) === at(each)
        ? []
        : [`${each.name} ${verb} ${formatDate(at(each))} here, ${formatDate(at(other))} there.`];
    }),
    ...there
      .filter((each) => !keys.has(each.key))
      .map((each) => `${each.name} is planned there only (${verb} ${formatDate(at(each))}).`),
  ];
};
