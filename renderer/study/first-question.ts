/** The study that is there before anybody asked one: two inputs of the plan, on a grid. */
import type { InputOffer } from "../../app/study/offers.ts";
import type { InputAsked, StudyAsked, StudyQuantity } from "../../app/study/question.ts";

const FIRST: readonly StudyQuantity[] = ["loss factor", "sortie cadence", "payload", "flight delay", "reserve"];
const COUNT = 21;

const withCount = (input: InputAsked): InputAsked =>
  input.values.kind === "range" ? { ...input, values: { ...input.values, count: COUNT } } : input;

/** null: the plan has nothing that could be varied. */
export const firstQuestion = (offers: readonly InputOffer[]): StudyAsked | null => {
  const inputs = FIRST.flatMap((quantity) => offers.find((offer) => offer.quantity === quantity)?.input ?? [])
    .slice(0, 2)
    .map(withCount);
  const [first] = inputs.length > 0 ? inputs : offers.map(({ input }) => withCount(input));
  if (first === undefined) return null;
  return {
    name: "study",
    inputs: inputs.length > 0 ? inputs : [first],
    design: { kind: "grid" },
    ask: [{ kind: "supply", each: false }],
  };
};
