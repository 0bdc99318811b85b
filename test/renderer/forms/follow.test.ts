/** What follows a choice in the form of a new thing, and what stays because somebody typed it. */
import { expect, test } from "vitest";
import { followed } from "../../../renderer/forms/follow.ts";
import { freshEntity } from "../../../renderer/forms/fresh.ts";
import { smallPlan } from "../timeline/small-plan.ts";

const plan = smallPlan();
const large = { ...plan.craftClasses[0]!, id: "barge", name: "Barge", tripDays: 30, berthDays: 6, propellants: [] };
const both = smallPlan({
  craftClasses: [...plan.craftClasses, large],
  craft: [...plan.craft, { id: "barge-1", classId: "barge", name: "Barge 1", note: "", engineChanges: [] }],
});

const fresh = <K extends "tank" | "flight" | "craft">(kind: K) => {
  const made = freshEntity(kind, { plan: both, at: null, nearId: null });
  if (!made.ok) throw new Error(made.missing);
  return made.value;
};

test("a tank's name follows depot and propellant, its maximum fill volume and ullage: 26 m³ of oxygen under 4 % hold 28,480 kg", () => {
  const tank = fresh("tank");
  expect(tank.name).toBe("Shelf hydrogen");
  const oxygen = followed(both, "tank", tank, { propellantId: "oxygen" });
  expect(oxygen.name).toBe("Shelf oxygen");
  const sized = followed(both, "tank", followed(both, "tank", oxygen, { ullagePercent: 4 }), { volumeM3: 26 });
  // 26 · 0.96 · 1 141 kg/m³ = 28 479.36
  expect(sized.maximumFillKg).toBe(28_479);
  const typed = followed(both, "tank", sized, { maximumFillKg: 20_000 });
  expect(followed(both, "tank", typed, { volumeM3: 30 }).maximumFillKg).toBe(20_000);
  const named = followed(both, "tank", sized, { name: "North sphere" });
  expect(followed(both, "tank", named, { propellantId: "hydrogen" }).name).toBe("North sphere");
});

test("a flight's name, transit, stay and load follow the tanker; what was typed stays", () => {
  const flight = fresh("flight");
  const barge = followed(both, "flight", flight, { craftId: "barge-1" });
  expect(barge).toMatchObject({ name: "Barge 1", berthDays: 6, loads: [] });
  expect((barge.arriveAt - barge.departAt) / 86_400_000).toBe(30);
  const typed = followed(both, "flight", flight, { name: "Relief", berthDays: 1 });
  expect(followed(both, "flight", typed, { craftId: "barge-1" })).toMatchObject({ name: "Relief", berthDays: 1 });
});

test("a craft's name follows its class", () => {
  expect(followed(both, "craft", fresh("craft"), { classId: "barge" }).name).toBe("Barge 2");
});
