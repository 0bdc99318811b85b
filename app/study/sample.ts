/** A study to begin from, made of what a plan has: so that nobody starts with an empty page. */
import type { PlanSnapshot } from "../entity/plan.ts";
import { PlanningError } from "../ground/failure.ts";
import type { InputAsked, StudyAsked } from "./question.ts";
import { prepareStudy } from "./study.ts";

const candidates = (plan: PlanSnapshot): readonly InputAsked[] => {
  const tankers = plan.craftClasses.filter(({ role }) => role === "tanker");
  const payloads = tankers.flatMap(({ id, name, propellants }) =>
    propellants
      .filter(({ loadKg }) => loadKg > 0)
      .map(({ propellantId, loadKg, capacityKg }): InputAsked => ({
        quantity: "payload",
        class: tankers.filter((row) => row.name === name).length > 1 ? id : name,
        propellant: plan.propellants.find((row) => row.id === propellantId)?.name ?? propellantId,
        values: { kind: "range", from: Math.round(loadKg * 0.6), to: Math.max(capacityKg, loadKg), count: 21 },
      })),
  );
  return [
    { quantity: "loss factor", values: { kind: "range", from: 0, to: 3, count: 31 } },
    { quantity: "sortie cadence", values: { kind: "range", from: 40, to: 180, count: 29 } },
    ...payloads,
    { quantity: "flight delay", values: { kind: "range", from: 0, to: 60, count: 31 } },
  ];
};

/** Two inputs that do something in this plan, where it has two. Throws "refused" where there is nothing to study. */
export const sampleStudy = (plan: PlanSnapshot): StudyAsked => {
  const study = (inputs: readonly InputAsked[]): StudyAsked => ({
    name: inputs.map(({ quantity }) => quantity).join(" and "),
    case: plan.planCase.name,
    inputs: [...inputs],
    design: { kind: "grid" },
    ask: [{ kind: "supply", each: true }],
  });
  let failure: PlanningError | null = null;
  const taken: InputAsked[] = [];
  for (const input of candidates(plan)) {
    if (taken.length === 2) break;
    try {
      prepareStudy({ plan, readings: [], asked: study([...taken, input]) });
      taken.push(input);
    } catch (error) {
      if (!(error instanceof PlanningError) || error.code === "defect") throw error;
      failure = error;
    }
  }
  if (taken.length === 0) throw failure ?? new PlanningError("refused", "There is nothing to vary in this plan.");
  return study(taken);
};
