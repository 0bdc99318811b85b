/** Editing a profile: what can be computed is saved at once, as one step; what cannot is kept aside with the reason. */
import { useState } from "react";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import { profileFaults } from "../../../app/sortie/plan-rule.ts";
import { checkEntity } from "../../editing/editing.ts";
import { useSession } from "../../state/use-session.ts";

type Profile = Entity<"profile">;

export interface ProfileDraft {
  /** As it is edited; the plan's own where nothing is held back. */
  readonly value: Profile;
  /** Why it is not saved; null: it is. */
  readonly fault: string | null;
  readonly change: (next: Profile, words: string) => void;
  /** Back to what the plan has. */
  readonly takeBack: () => void;
}

/** What would be wrong with the plan if it had this profile; null: nothing. */
export const faultWith = (plan: PlanSnapshot, profile: Profile): string | null => {
  const form = checkEntity("profile", profile);
  if (form !== null) return form.message;
  const rows = {
    craft: plan.craft,
    craftClass: plan.craftClasses,
    profile: [profile],
    propellant: plan.propellants,
    sortie: plan.sorties.filter(({ demand }) => demand.kind === "profile" && demand.profileId === profile.id),
  };
  return profileFaults(rows)[0]?.message ?? null;
};

export const useProfileDraft = (profile: Profile, plan: PlanSnapshot): ProfileDraft => {
  const session = useSession();
  const [held, setHeld] = useState<{ of: Profile; value: Profile; fault: string } | null>(null);
  // A profile that changed underneath (undo, another window) is shown as it is now.
  const draft = held !== null && held.of === profile ? held : null;
  const change = async (next: Profile, words: string): Promise<void> => {
    const fault = faultWith(plan, next);
    if (fault !== null) return setHeld({ of: profile, value: next, fault });
    setHeld(null);
    const label = `Change ${words} of ${profile.name}`.slice(0, 120);
    const reply = await session.edit(label, [{ op: "put", kind: "profile", value: next }]);
    if (!reply.ok) setHeld({ of: profile, value: next, fault: reply.failure.message });
  };
  return {
    value: draft?.value ?? profile,
    fault: draft?.fault ?? null,
    change: (next, words) => void change(next, words),
    takeBack: () => setHeld(null),
  };
};
