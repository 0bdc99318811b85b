/** Names of what records speak of, from the plans of both sides: ours first. */
import type { EntitySet } from "../entity/entities.ts";
import { byId } from "../entity/entity-index.ts";
import type { AccountRef } from "../ledger/journal.ts";

export interface Names {
  readonly tank: (id: string) => string;
  readonly subject: (key: string) => string;
  readonly account: (account: AccountRef, propellantId: string) => string;
}

interface Named {
  readonly id: string;
  readonly name: string;
}

interface Keyed {
  readonly key: string;
  readonly name: string;
}

export const namesIn = (ours: EntitySet, theirs: EntitySet): Names => {
  const find = (kind: "tank" | "source" | "depot" | "craft" | "propellant", id: string): string | null => {
    const row = [ours, theirs].map((plan) => byId<Named>(plan[kind]).get(id)).find((each) => each !== undefined);
    return row?.name ?? null;
  };
  const subject = (key: string): string => {
    const rows: readonly Keyed[] = [...ours.flight, ...ours.sortie, ...theirs.flight, ...theirs.sortie];
    return rows.find((row) => row.key === key)?.name ?? key;
  };
  const tank = (id: string): string => find("tank", id) ?? id;
  return {
    tank,
    subject,
    account: ({ kind, ownerId }, propellantId) => {
      const propellant = find("propellant", propellantId) ?? propellantId;
      switch (kind) {
        case "tank":
          return tank(ownerId);
        case "source":
          return `${find("source", ownerId) ?? ownerId}, ${propellant}`;
        case "transit":
          return `aboard ${subject(ownerId)}, ${propellant}`;
        default:
          return `${kind}, ${find("depot", ownerId) ?? find("craft", ownerId) ?? ownerId}, ${propellant}`;
      }
    },
  };
};
