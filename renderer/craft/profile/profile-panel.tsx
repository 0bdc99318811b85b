/** The sortie sheet of a lander class: its profiles, the steps of one, and everything that follows from them. */
import { useMemo, useState } from "react";
import type { Entity } from "../../../app/entity/entities.ts";
import type { Mission } from "../../../app/entity/profile.ts";
import { launchedPerKg } from "../../../app/forecast/launched.ts";
import { nextName, uniqueId } from "../../names/new-id.ts";
import type { CaseForecast } from "../../state/case-forecast.ts";
import { useApp, useSession } from "../../state/use-session.ts";
import { Button } from "../../widgets/button.tsx";
import { ChoiceField } from "../../widgets/choice-field.tsx";
import { LifeTable } from "./life-table.tsx";
import { MissionFields } from "./mission-fields.tsx";
import { ProfileSheet } from "./profile-sheet.tsx";
import "./profile.css";

type Profile = Entity<"profile">;

interface ProfilePanelProps {
  readonly current: CaseForecast;
  readonly craftClass: Entity<"craftClass">;
}

type Flying = Extract<Entity<"sortie">["demand"], { readonly kind: "profile" }>;

/** Demands of this case's sorties that are flown by one of the profiles, in order of time. */
const flyingBy = (current: CaseForecast, profiles: readonly Profile[]): Flying[] =>
  current.plan.sorties
    .toSorted((a, b) => a.loadAt - b.loadAt)
    .flatMap(({ demand }) =>
      demand.kind === "profile" && profiles.some(({ id }) => id === demand.profileId) ? [demand] : [],
    );

/** What the first sortie that flies the profile carries, or one of its class; a tonne down where none does. */
const usualMission = (flying: readonly Flying[], profile: Profile | undefined): Mission => {
  const like = flying.find(({ profileId }) => profileId === profile?.id) ?? flying[0];
  if (like === undefined) return { cargoDownKg: 1000, cargoUpKg: 0, crew: 2 };
  const { cargoDownKg, cargoUpKg, crew } = like;
  return { cargoDownKg, cargoUpKg, crew };
};

/** Makes, copies and deletes profiles; each is one step that can be undone. */
const useProfileActions = (current: CaseForecast, craftClass: Entity<"craftClass">) => {
  const session = useSession();
  const { plan } = current;
  const put = async (label: string, value: Profile): Promise<void> => {
    const reply = await session.edit(label, [{ op: "put", kind: "profile", value }]);
    if (reply.ok) session.select({ kind: "profile", id: value.id });
  };
  const names = new Set(plan.profiles.map(({ name }) => name));
  const ids = new Set(plan.profiles.map(({ id }) => id));
  return {
    create: () => {
      const name = nextName("Profile 0", names);
      const id = uniqueId(`${craftClass.id} ${name}`, "profile", ids);
      const reserve = { kind: "percent of load", percent: 2 } as const;
      void put(`Add ${name}`, { id, classId: craftClass.id, name, steps: [], reserve, note: "", landing: null });
    },
    copy: (profile: Profile) => {
      const name = nextName(profile.name, names);
      void put(`Copy ${profile.name}`, { ...profile, name, id: uniqueId(name, "profile", ids) });
    },
    remove: (profile: Profile) =>
      void session.edit(`Delete ${profile.name}`, [{ op: "remove", kind: "profile", id: profile.id }]),
  };
};

export const ProfilePanel = ({ current, craftClass }: ProfilePanelProps) => {
  const session = useSession();
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const selection = useApp((state) => state.selection);
  const [lastId, setLastId] = useState<string | null>(null);
  const profiles = useMemo(
    () => current.plan.profiles.filter(({ classId }) => classId === craftClass.id),
    [current.plan.profiles, craftClass.id],
  );
  const wantedId = selection?.kind === "profile" ? selection.id : lastId;
  const flying = useMemo(() => flyingBy(current, profiles), [current, profiles]);
  // Where nothing is chosen: the profile that the last of the case's sorties flies, else the first.
  const shown =
    profiles.find(({ id }) => id === wantedId) ??
    profiles.find(({ id }) => id === flying.at(-1)?.profileId) ??
    profiles[0];
  const [stated, setMission] = useState<{ of: string; mission: Mission } | null>(null);
  const actions = useProfileActions(current, craftClass);
  const mission = useMemo(
    () => (stated !== null && stated.of === shown?.id ? stated.mission : usualMission(flying, shown)),
    [stated, shown, flying],
  );
  const launched = useMemo(() => launchedPerKg(current.plan, current.forecast), [current]);
  const choose = (id: string): void => {
    setLastId(id);
    session.select({ kind: "profile", id });
  };
  const { lander } = craftClass;
  if (lander === null)
    return <p className="form-advice">This lander is not described yet, so its sorties cannot be computed.</p>;
  return (
    <section className="profile-panel" aria-label={`Sortie profiles of ${craftClass.name}`}>
      <header className="profile-head">
        {shown !== undefined && (
          <ChoiceField
            label="Profile"
            value={shown.id}
            choices={profiles.map(({ id, name }) => ({ id, name }))}
            onCommit={choose}
          />
        )}
        {!isReadOnly && (
          <div className="profile-tools">
            <Button onPress={actions.create}>New profile</Button>
            {shown !== undefined && (
              <>
                <Button onPress={() => actions.copy(shown)}>Copy profile</Button>
                <Button look="quiet" onPress={() => actions.remove(shown)}>
                  Delete profile
                </Button>
              </>
            )}
          </div>
        )}
      </header>
      {shown === undefined ? (
        <p className="form-advice">No profile yet: a profile is the list of burns, coasts and stays of one sortie.</p>
      ) : (
        <>
          <MissionFields
            mission={mission}
            shown={shown}
            current={current}
            isReadOnly={isReadOnly}
            onChange={(next) => setMission({ of: shown.id, mission: next })}
          />
          <ProfileSheet
            key={shown.id}
            profile={shown}
            profiles={profiles}
            lander={lander}
            plan={current.plan}
            mission={mission}
            isReadOnly={isReadOnly}
            launchedPerKg={launched}
          />
          <LifeTable current={current} craftClass={craftClass} />
        </>
      )}
    </section>
  );
};
