/** Sorties whose dates do not agree with the profile that their load is computed from, and what the difference costs. */
import type { Forecast } from "../forecast/outcome.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { sheetOfSortie } from "../sortie/plan-demand.ts";
import type { SortieSheet } from "../sortie/sheet.ts";
import type { PlanFinding } from "./answer.ts";

/** Profiles are written to a tenth of a day; a smaller difference is rounding. */
const SAME_DAYS = 0.05;

/** A profile with its longest stay longer by so many days; null: no stay can take them. */
const stretched = (profile: Entity<"profile">, moreDays: number): Entity<"profile"> | null => {
  let longest = -1;
  profile.steps.forEach((step, index) => {
    const best = profile.steps[longest];
    if (step.kind === "stay" && (best?.kind !== "stay" || step.days > best.days)) longest = index;
  });
  const stay = profile.steps[longest];
  if (stay?.kind !== "stay" || stay.days + moreDays < 0) return null;
  return { ...profile, steps: profile.steps.with(longest, { ...stay, days: stay.days + moreDays }) };
};

type Extra = Extract<PlanFinding, { kind: "time away differs" }>["extra"];

/** Answers by the sheet, which is the same object while nothing changes: a drag asks the same again and again. */
const kept = new WeakMap<SortieSheet, Map<number, Extra>>();

const extraOf = (
  plan: PlanSnapshot,
  sortie: Entity<"sortie">,
  profile: Entity<"profile">,
  sheet: SortieSheet,
  moreDays: number,
): Extra => {
  const answers = kept.get(sheet) ?? new Map<number, Extra>();
  kept.set(sheet, answers);
  const known = answers.get(moreDays);
  if (known !== undefined) return known;
  const longer = stretched(profile, moreDays);
  const extra = longer === null ? null : difference(plan, sortie, profile, longer);
  answers.set(moreDays, extra);
  return extra;
};

const difference = (
  plan: PlanSnapshot,
  sortie: Entity<"sortie">,
  profile: Entity<"profile">,
  longer: Entity<"profile">,
): Extra => {
  try {
    const now = sheetOfSortie(plan, sortie);
    const then = sheetOfSortie(
      { ...plan, profiles: plan.profiles.map((row) => (row === profile ? longer : row)) },
      sortie,
    );
    if (now === null || then === null) return null;
    return then.lines
      .map(({ propellantId, loadKg }) => ({
        propellantId,
        massKg: loadKg - (now.lines.find((line) => line.propellantId === propellantId)?.loadKg ?? 0),
      }))
      .filter(({ massKg }) => massKg !== 0);
  } catch {
    // A stay so long that nothing can carry it: what it costs is not known, that it differs is.
    return null;
  }
};

export const timeAwayFindings = (plan: PlanSnapshot, seen: Forecast): readonly PlanFinding[] => {
  const ahead = new Set(seen.sorties.map((row) => row.sortieId));
  const profiles = new Map(plan.profiles.map((profile) => [profile.id, profile]));
  return plan.sorties.flatMap((sortie): readonly PlanFinding[] => {
    const { demand } = sortie;
    if (!ahead.has(sortie.id) || demand.kind !== "profile") return [];
    const profile = profiles.get(demand.profileId);
    const sheet = sheetOfSortie(plan, sortie);
    if (profile === undefined || sheet === null) return [];
    const statedDays = (sortie.returnAt - sortie.loadAt) / DAY_MS;
    const moreDays = statedDays - sheet.durationDays;
    if (Math.abs(moreDays) <= SAME_DAYS) return [];
    return [
      {
        kind: "time away differs",
        sortieId: sortie.id,
        statedDays,
        profileDays: sheet.durationDays,
        extra: extraOf(plan, sortie, profile, sheet, moreDays),
      },
    ];
  });
};
