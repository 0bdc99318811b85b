/** The filter of the journal: what is asked of the service, and the choices to ask by. */
import type { Input } from "../../app/contract/contract.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { accountKinds } from "../../app/ledger/journal.ts";
import { tankName } from "../names/entity-words.ts";
import type { Choice } from "../widgets/choice-field.tsx";
import { accountKindWords } from "../names/account-words.ts";

export type JournalFilter = Input<"journal.page">;

export const PAGE_ROWS = 50;

export const wholeJournal: JournalFilter = {
  fromAt: null,
  untilAt: null,
  accountKind: null,
  ownerId: null,
  propellantId: null,
  subjectKey: null,
  text: "",
  offset: 0,
  limit: PAGE_ROWS,
};

/** Stands for "all of them" in a choice. */
export const ALL = "-";

const all = (name: string): Choice<string> => ({ id: ALL, name });

export const accountChoices: readonly Choice<string>[] = [
  all("every account"),
  ...accountKinds.map((kind) => ({ id: kind, name: accountKindWords[kind] })),
];

/** Depots, craft, tanks, sources: whatever an account may belong to. */
export const ownerChoices = (plan: PlanSnapshot): readonly Choice<string>[] => [
  all("every owner"),
  ...plan.depots.map(({ id, name }) => ({ id, name, note: "depot" })),
  ...plan.tanks.map(({ id }) => ({ id, name: tankName(plan, id), note: "tank" })),
  ...plan.craft.map(({ id, name }) => ({ id, name, note: "craft" })),
  ...plan.sources.map(({ id, name }) => ({ id, name, note: "source" })),
];

export const propellantChoices = (plan: PlanSnapshot): readonly Choice<string>[] => [
  all("every propellant"),
  ...plan.propellants.map(({ id, name }) => ({ id, name })),
];

/** Flights and sorties that records may speak of: those that have begun. */
export const subjectChoices = (plan: PlanSnapshot): readonly Choice<string>[] => [
  all("every flight and sortie"),
  ...plan.flights
    .filter(({ status }) => status === "departed" || status === "arrived" || status === "lost")
    .map(({ key, name }) => ({ id: key, name, note: "flight" })),
  ...plan.sorties
    .filter(({ status }) => status === "departed" || status === "flown")
    .map(({ key, name }) => ({ id: key, name, note: "sortie" })),
];

export const isFiltered = (filter: JournalFilter): boolean =>
  filter.fromAt !== null ||
  filter.untilAt !== null ||
  filter.accountKind !== null ||
  filter.ownerId !== null ||
  filter.propellantId !== null ||
  filter.subjectKey !== null ||
  filter.text !== "";
