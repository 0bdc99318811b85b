/** What a quantity can be stated of in a plan: everything, a class, or one flight, sortie or tank. */
import { missingCase } from "../../app/ground/missing-case.ts";
import { isAhead } from "../../app/forecast/compile-flights.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Quantity, Uncertainty } from "../../app/entity/risk-input.ts";
import { subjectWords } from "../../app/risk/input-words.ts";
import { tankName } from "../names/entity-words.ts";
import type { Choice } from "../widgets/choice-field.tsx";

const EVERY = "every";

/** "every", or the id of what the input is stated of. */
export const subjectId = ({ of }: Uncertainty): string => {
  switch (of.kind) {
    case "every":
      return EVERY;
    case "craft class":
      return of.craftClassId;
    case "flight":
      return of.flightId;
    case "sortie":
      return of.sortieId;
    case "tank":
      return of.tankId;
    default:
      return missingCase(of);
  }
};

const everyOf = (quantity: Quantity): Choice<string> => ({
  id: EVERY,
  name: subjectWords({ quantity, of: { kind: "every" } } as Uncertainty, (id) => id),
});

export const subjectChoices = (plan: PlanSnapshot, quantity: Quantity): readonly Choice<string>[] => {
  const classes = plan.craftClasses
    .filter(({ role }) => role === "tanker")
    .map(({ id, name }) => ({ id, name, note: "class" }));
  switch (quantity) {
    case "grounding":
      return [everyOf(quantity), ...classes];
    case "flight slip":
    case "flight loss":
    case "transfer loss":
      return [everyOf(quantity), ...classes, ...plan.flights.filter(isAhead).map(({ id, name }) => ({ id, name }))];
    case "sortie slip":
    case "sortie demand":
      return [
        everyOf(quantity),
        ...plan.sorties.filter(({ status }) => status === "planned").map(({ id, name }) => ({ id, name })),
      ];
    case "boil-off":
    case "cooler":
    case "opening level":
      return [
        everyOf(quantity),
        ...plan.tanks
          .filter(({ ownerKind }) => ownerKind === "depot")
          .map(({ id }) => ({ id, name: tankName(plan, id) })),
      ];
    default:
      return missingCase(quantity);
  }
};

/** The uncertainty stated of something else. */
export const withSubject = (plan: PlanSnapshot, uncertainty: Uncertainty, id: string): Uncertainty => {
  const of =
    id === EVERY
      ? { kind: "every" }
      : plan.craftClasses.some((row) => row.id === id)
        ? { kind: "craft class", craftClassId: id }
        : plan.flights.some((row) => row.id === id)
          ? { kind: "flight", flightId: id }
          : plan.sorties.some((row) => row.id === id)
            ? { kind: "sortie", sortieId: id }
            : { kind: "tank", tankId: id };
  return { ...uncertainty, of } as Uncertainty;
};
