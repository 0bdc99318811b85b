/** Editing what is in the plan: each committed field is checked, shown at once, and sent as one step. */
import { useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Change, Entity, EntityKind } from "../../app/entity/entities.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { type Editing, type Fault, checkEntity, faultOfFailure, wordsBeside, wordsFor } from "../editing/editing.ts";
import { nameOf } from "../names/entity-words.ts";

export interface EntityEdit<K extends EntityKind> extends Editing<Entity<K>> {
  /** A refusal that concerns no field. */
  readonly fault: string | null;
}

/** An undo label has 120 characters at most. */
const MAX_LABEL = 120;

export const useEntityEdit = <K extends EntityKind>(kind: K, value: Entity<K>, plan: PlanSnapshot): EntityEdit<K> => {
  const session = useSession();
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  // A refusal stands while the thing is as it was when it was refused.
  const state = JSON.stringify(value);
  const [refused, setRefused] = useState<{ readonly fault: Fault; readonly state: string } | null>(null);
  const fault = refused?.state === state ? refused.fault : null;
  const setFault = (found: Fault | null): void => setRefused(found === null ? null : { fault: found, state });
  const change = async (patch: Partial<Entity<K>>, words: string): Promise<void> => {
    const next: Entity<K> = { ...value, ...patch };
    const broken = checkEntity(kind, next);
    if (broken !== null) return setFault(broken);
    setFault(null);
    const label = `Change ${words} of ${nameOf(plan, kind, value)}`.slice(0, MAX_LABEL);
    const reply = await session.edit(label, [{ op: "put", kind, value: next } as unknown as Change]);
    if (!reply.ok) setFault(faultOfFailure(reply.failure));
  };
  return {
    value,
    plan,
    isNew: false,
    isReadOnly,
    change: (patch, words) => void change(patch, words),
    faultOf: (field) => wordsFor(fault, field),
    fault: wordsBeside(fault, value),
  };
};
