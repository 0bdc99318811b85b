/** Demands, engine life and the profile rule over the rows of a plan. */
import { expect, test } from "vitest";
import { heronCached, heronDirect, heronLander, heronMission } from "../../../app/demo/heron.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import { demandLines, sheetOfSortie } from "../../../app/sortie/plan-demand.ts";
import { lifeOfPlan } from "../../../app/sortie/plan-life.ts";
import { checkProfiles, profileFaults } from "../../../app/sortie/plan-rule.ts";
import { emptyEntitySet } from "../../../app/entity/apply-changes.ts";
import { freshSortie } from "../../../app/entity/sortie.ts";
import { densities } from "./example.ts";

const DAY = 86_400_000;

const sortie = (n: number, demand: Entity<"sortie">["demand"]): Entity<"sortie"> => ({
  id: `s${String(n)}`,
  planCaseId: "base",
  key: `s${String(n)}`,
  campaignId: "rim",
  landerId: "one",
  depotId: "tarn",
  name: `Sortie ${String(n)}`,
  loadAt: n * 60 * DAY,
  returnAt: n * 60 * DAY + 8 * DAY,
  demand,
  ...freshSortie,
});
const flies = { kind: "profile", profileId: heronDirect.id, ...heronMission } as const;

const plan = {
  propellants: densities.map(({ id, densityKgPerM3 }, position) => ({
    id,
    name: id,
    symbol: id.slice(0, 3),
    fluid: null,
    densityKgPerM3,
    position,
  })),
  craftClasses: [
    {
      id: "heron",
      name: "Heron",
      role: "lander" as const,
      propellants: [],
      tripDays: 8,
      berthDays: 0,
      turnaroundDays: 0,
      costPerFlight: null,
      costUnit: "",
      hardwareKg: null,
      note: "",
      lander: heronLander,
    },
  ],
  profiles: [heronDirect, heronCached],
  craft: [{ id: "one", classId: "heron", name: "Heron 1", note: "", engineChanges: [{ at: 305 * DAY, note: "" }] }],
  sorties: [1, 2, 3, 4, 5, 6].map((n) => sortie(n, flies)),
};

test("a sortie's demand is its sheet's load and return; the same rows give the same sheet", () => {
  const sheet = sheetOfSortie(plan, sortie(1, flies));
  expect(demandLines(plan, sortie(1, flies))).toEqual(
    sheet?.lines.map(({ propellantId, loadKg, returnKg }) => ({ propellantId, loadKg, returnKg })),
  );
  expect(sheetOfSortie({ ...plan, propellants: [...plan.propellants] }, sortie(2, flies))).toBe(sheet);
  expect(sheetOfSortie(plan, sortie(1, { ...flies, cargoDownKg: 2000 }))).not.toBe(sheet);
});

test("a stated demand and a class's demand pass through", () => {
  const lines = [{ propellantId: "oxygen", loadKg: 5, returnKg: 1 }];
  expect(demandLines(plan, sortie(1, { kind: "stated", lines }))).toEqual(lines);
  expect(demandLines(plan, sortie(1, { kind: "class" }))).toEqual([]);
  expect(sheetOfSortie(plan, sortie(1, { kind: "class" }))).toBeNull();
});

test("a sortie that cannot be computed is refused by its name", () => {
  expect(() => demandLines(plan, sortie(4, { ...flies, profileId: "gone" }))).toThrow(
    "Sortie 4 flies a profile that does not exist: gone",
  );
  expect(() => demandLines(plan, sortie(4, { ...flies, cargoDownKg: 9000 }))).toThrow(
    /^Sortie 4, profile "Single stage": departure: 9000.0 kg of cargo aboard/,
  );
});

test("engines rated for 45 ignitions at eight a sortie are due before the sixth, unless changed before it", () => {
  const without = { ...plan, craft: plan.craft.map((craft) => ({ ...craft, engineChanges: [] })) };
  expect(lifeOfPlan(without).lives[0]?.dueBefore).toMatchObject({
    sortieId: "s6",
    ignitions: 48,
    exceeds: ["ignitions"],
  });
  expect(lifeOfPlan(plan).lives[0]?.dueBefore).toBeNull();
  // One that stands down uses nothing.
  expect(lifeOfPlan(without, (id, at) => (id === "s2" ? null : at)).lives[0]?.dueBefore).toBeNull();
  const stated = { ...plan, sorties: [sortie(1, { kind: "class" })] };
  expect(lifeOfPlan(stated)).toEqual({ lives: [], uncountedSortieIds: ["s1"] });
});

test("the rule refuses what an edit breaks, and leaves alone what it does not touch", () => {
  const entities = {
    ...emptyEntitySet(),
    propellant: plan.propellants,
    craftClass: plan.craftClasses,
    profile: plan.profiles,
    craft: plan.craft,
    sortie: plan.sorties,
  };
  expect(profileFaults(entities)).toEqual([]);
  const heavy = sortie(7, { ...flies, cargoDownKg: 9000 });
  const broken = { ...entities, sortie: [...plan.sorties, heavy] };
  expect(() => checkProfiles(broken, [{ op: "put", kind: "sortie", value: heavy }])).toThrow(
    expect.objectContaining({ code: "refused", field: "changes.0.value.demand" }),
  );
  expect(() => checkProfiles(broken, [{ op: "put", kind: "sortie", value: plan.sorties[0]! }])).not.toThrow();
  const weak = { ...plan.craftClasses[0]!, lander: { ...heronLander, tanks: heronLander.tanks.slice(0, 2) } };
  expect(() =>
    checkProfiles({ ...entities, craftClass: [weak] }, [{ op: "put", kind: "craftClass", value: weak }]),
  ).toThrow(/no tank for hydrazine/);
});
