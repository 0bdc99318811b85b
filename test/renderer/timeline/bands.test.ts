/** The bands of the risk on a level chart: nested, of their own depot, cut to what is shown, without colour when old. */
import { describe, expect, it } from "vitest";
import type { Band } from "../../../app/risk/answer.ts";
import { massScale } from "../../../app/picture/mass-scale.ts";
import { timeScale } from "../../../app/picture/time-scale.ts";
import { levelBand } from "../../../app/picture/level/level-band.ts";
import { screenLevel } from "../../../app/picture/level/level-look.ts";
import { timelineModel } from "../../../renderer/timeline/model/timeline-model.ts";
import { smallCase } from "./small-plan.ts";

const current = smallCase();
const [depot] = current.plan.depots;
const [propellant] = current.plan.propellants.toSorted((a, b) => a.position - b.position);
const from = current.plan.asOfAt;
const day = 86_400_000;
const at = Array.from({ length: 11 }, (_, place) => from + place * 10 * day);

const band = (depotId: string): Band => ({
  depotId,
  propellantId: propellant!.id,
  at,
  p5: at.map(() => 100),
  p10: at.map(() => 200),
  p50: at.map(() => 300),
  p90: at.map(() => 400),
  p95: at.map(() => 500),
});

const shapesOf = (bands: readonly Band[], isOld = false, untilAt = at.at(-1)!) => {
  const model = timelineModel(current, null, null, { bands, isOld, note: "bands" })!;
  const scale = timeScale(from, untilAt, 0, 1000);
  return { model, shapes: levelBand(model.levels[0]!, massScale(600, 0, 600, "kg"), scale, screenLevel) };
};

describe("bands", () => {
  it("are two areas, the inner within the outer, and a dashed median between", () => {
    const { model, shapes } = shapesOf([band(depot!.id)]);
    expect(model.bandNote).toBe("bands");
    const [outer, inner, median] = shapes;
    const heights = (shape: (typeof shapes)[number] | undefined) =>
      shape?.kind === "area" || shape?.kind === "path"
        ? Array.from(shape.points).filter((_, place) => place % 2 === 1)
        : [];
    expect(Math.min(...heights(outer))).toBeLessThan(Math.min(...heights(inner)));
    expect(Math.max(...heights(outer))).toBeGreaterThan(Math.max(...heights(inner)));
    expect(median).toMatchObject({ kind: "path", dash: expect.anything() as unknown });
  });

  it("of another depot are not drawn, and then there is nothing to say of them", () => {
    const { model, shapes } = shapesOf([band("elsewhere")]);
    expect(shapes).toEqual([]);
    expect(model.bandNote).toBeNull();
  });

  it("of the plan as it was lose the propellant's colour", () => {
    for (const shape of shapesOf([band(depot!.id)], true).shapes) expect(shape).toMatchObject({ ink: "ink-soft" });
  });

  it("reach both edges of what is shown and little beyond", () => {
    const { shapes } = shapesOf([band(depot!.id)], false, from + 25 * day);
    const [outer] = shapes;
    const xs = outer?.kind === "area" ? Array.from(outer.points).filter((_, place) => place % 2 === 0) : [];
    expect(Math.min(...xs)).toBeLessThanOrEqual(0);
    expect(Math.max(...xs)).toBeGreaterThanOrEqual(1000);
    expect(Math.max(...xs)).toBeLessThan(1500);
  });
});
