/** Moving flights and sorties by their parts. */
import { describe, expect, it } from "vitest";
import { isUnmoved, moved, snapped, whyNotMovable } from "../../../renderer/timeline/drag/move.ts";
import { day, smallPlan } from "./small-plan.ts";

const DAY = 86_400_000;
const plan = smallPlan();
const flight = (grip: "body" | "start" | "arrival" | "end", by: number, from = plan) => {
  const change = moved(from, { kind: "flight", id: "flight-1", grip }, by * DAY);
  if (change?.op !== "put" || change.kind !== "flight") throw new Error("not a flight");
  const { departAt, arriveAt, berthDays } = change.value;
  return [(departAt - day(0)) / DAY, (arriveAt - day(0)) / DAY, berthDays];
};
const sortie = (grip: "body" | "start" | "end", by: number) => {
  const change = moved(plan, { kind: "sortie", id: "sortie-1", grip }, by * DAY);
  if (change?.op !== "put" || change.kind !== "sortie") throw new Error("not a sortie");
  return [(change.value.loadAt - day(0)) / DAY, (change.value.returnAt - day(0)) / DAY];
};

describe("a flight from day 10 to day 20, five days at the port", () => {
  it("moved whole keeps its coast and its berth", () => expect(flight("body", 7)).toEqual([17, 27, 5]));
  it("taken by its departure keeps its arrival", () => expect(flight("start", 4)).toEqual([14, 20, 5]));
  it("cannot depart after it arrives", () => expect(flight("start", 40)).toEqual([20, 20, 5]));
  it("taken by its arrival keeps its departure", () => expect(flight("arrival", -3)).toEqual([10, 17, 5]));
  it("cannot arrive before it departs", () => expect(flight("arrival", -30)).toEqual([10, 10, 5]));
  it("taken by its end changes its time at the port", () => expect(flight("end", 2.5)).toEqual([10, 20, 7.5]));
  it("has no negative time at the port", () => expect(flight("end", -9)).toEqual([10, 20, 0]));
  it("does not leave in the recorded past", () => expect(flight("body", -60)).toEqual([0, 10, 5]));
  it("does not arrive beyond the horizon", () => expect(flight("body", 500)).toEqual([190, 200, 5]));
  it("that has departed moves its arrival only", () => {
    const flights = plan.flights.map((row) => ({ ...row, status: "departed" as const }));
    expect(flight("body", 3, smallPlan({ flights }))).toEqual([10, 23, 5]);
  });
});

describe("a sortie from day 40 to day 54", () => {
  it("moves whole", () => expect(sortie("body", -5)).toEqual([35, 49]));
  it("returns later", () => expect(sortie("end", 3)).toEqual([40, 57]));
  it("cannot return before it loads", () => expect(sortie("end", -30)).toEqual([40, 40]));
  it("loads earlier", () => expect(sortie("start", -2)).toEqual([38, 54]));
});

describe("snapping", () => {
  it("is to days seen from afar", () => expect(snapped(1.4 * DAY, 3, false)).toBe(DAY));
  it("is to hours when near", () => expect(snapped(1.4 * DAY, 200, false)).toBe(34 * 3_600_000));
  it("is to minutes when free", () => expect(snapped(90_500, 3, true)).toBe(120_000));
});

it("what is recorded stays", () => {
  const flights = plan.flights.map((row) => ({ ...row, status: "arrived" as const }));
  expect(whyNotMovable(smallPlan({ flights }), { kind: "flight", id: "flight-1", grip: "body" })).toBe(
    "Wagon 1 is arrived; only what is planned or under way can be moved.",
  );
  expect(whyNotMovable(plan, { kind: "flight", id: "flight-1", grip: "body" })).toBeNull();
});

it("a move by nothing is no change", () => {
  expect(isUnmoved(plan, moved(plan, { kind: "sortie", id: "sortie-1", grip: "body" }, 0)!)).toBe(true);
  expect(isUnmoved(plan, moved(plan, { kind: "sortie", id: "sortie-1", grip: "body" }, DAY)!)).toBe(false);
});
