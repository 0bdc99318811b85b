/** Holding a thing: proposals are joined per frame, each frame is one forecast, letting go ends it. */
import { describe, expect, it } from "vitest";
import { hold } from "../../../renderer/timeline/drag/hold.ts";
import { type TimelineModel, timelineModel } from "../../../renderer/timeline/model/timeline-model.ts";
import { day, smallCase } from "./small-plan.ts";

const DAY = 86_400_000;

const holding = () => {
  const model = timelineModel(smallCase(), null, null)!;
  const painted: TimelineModel[] = [];
  const frames: (() => void)[] = [];
  const held = hold(
    model,
    { kind: "flight", id: "flight-1", grip: "body" },
    {
      paint: (changed) => painted.push(changed),
      requestFrame: (run) => frames.push(run),
      cancelFrame: (id) => void frames.splice(id - 1, 1),
    },
  );
  const nextFrame = () => frames.shift()?.();
  return { model, painted, frames, held, nextFrame };
};

describe("a drag", () => {
  it("of many moves within a frame paints once, the last of them", () => {
    const { painted, held, nextFrame, frames } = holding();
    for (let step = 1; step <= 50; step++) held.moveBy((step * DAY) / 10);
    expect(frames).toHaveLength(1);
    nextFrame();
    expect(painted).toHaveLength(1);
    expect(painted[0]!.flights[0]!.departAt).toBe(day(15));
  });

  it("shows the statuses of the moved plan", () => {
    const { painted, held, nextFrame, model } = holding();
    expect(model.glance.sorties[0]!.status).toBe("supplied");
    // Wagon 1 then comes on day 65, after Sortie 1 has loaded on day 40 with what there is: 14.6 t of the 20 t of oxygen.
    held.moveBy(45 * DAY);
    nextFrame();
    expect(painted[0]!.glance.sorties[0]).toMatchObject({ status: "short", limitingPropellantId: "oxygen" });
    expect(painted[0]!.glance.sorties[0]!.lines[1]!.missingKg).toBeCloseTo(5400, 6);
  });

  it("back to where it was proposes nothing", () => {
    const { held } = holding();
    held.moveBy(3 * DAY);
    expect(held.proposal()).toMatchObject({ value: { departAt: day(13) } });
    held.moveBy(0);
    expect(held.proposal()).toBeNull();
  });

  it("let go before its frame paints no more", () => {
    const { painted, held, nextFrame } = holding();
    held.moveBy(DAY);
    held.release();
    nextFrame();
    expect(painted).toEqual([]);
  });

  it("leaves the plan it began with as it was", () => {
    const { model, held, nextFrame } = holding();
    const before = JSON.stringify(model.plan);
    held.moveBy(9 * DAY);
    nextFrame();
    expect(JSON.stringify(model.plan)).toBe(before);
  });
});
