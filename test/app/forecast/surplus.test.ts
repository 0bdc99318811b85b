/** A lander that has more aboard than its next sortie needs, worked by hand. */
import { describe, expect, it } from "vitest";
import { imbalanceKg } from "../../../app/forecast/balance.ts";
import { levelAt } from "../../../app/forecast/curve.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import { type SmallPlan, day, smallPlan, sortie } from "./small-plan.ts";

const of = (wanted: SmallPlan) => forecast(smallPlan(wanted));
const level = (result: ReturnType<typeof forecast>, tankId: string, days: number): number =>
  levelAt(result.levels.find((row) => row.tankId === tankId)?.segments ?? [], day(days));

describe("a lander", () => {
  it("takes along what it has beyond its need, and has it when it is home again", () => {
    const result = of({
      opening: { a: 9000, "heron-1:lox": 6000 },
      sorties: [sortie("s", 1, 5000, { returnKg: 250 }), sortie("t", 20, 5000)],
    });
    const [first, second] = result.sorties;
    expect(first?.lines[0]).toMatchObject({ drawn: [], loadedKg: 6000, surplusKg: 1000, returnedKg: 1250 });
    expect(level(result, "heron-1:lox", 15)).toBe(1250);
    expect(second?.lines[0]?.drawn).toEqual([{ tankId: "a", massKg: 3750 }]);
    expect(result.balances.map(imbalanceKg)).toEqual([0]);
  });
  it("that is out brings home what its record of loading has beyond its need", () => {
    const plan = smallPlan({ sorties: [sortie("s", -5, 5000, { status: "departed", returnKg: 250 })] });
    const leftWith = [{ sortieId: "s", propellantId: "lox", massKg: 5600, givenKg: 5600 }];
    const result = forecast({ ...plan, leftWith });
    expect(level(result, "heron-1:lox", 6)).toBe(850);
  });
});
