/** Ways to fly a sortie, compared. */
import { expect, test } from "vitest";
import { heronCached, heronDirect, heronLander, heronMission } from "../../../app/demo/heron.ts";
import { compareWays } from "../../../app/sortie/ways.ts";
import { densities } from "./example.ts";

test("a way that cannot be flown stays in the comparison with the reason; the cached way saves tonnes", () => {
  const leaner = { ...heronLander, engines: { ...heronLander.engines, mixtureRatio: 5 } };
  const fewer = {
    ...heronDirect,
    steps: heronDirect.steps.map((step) => (step.kind === "burn" ? { ...step, enginesLit: 5 } : step)),
  };
  const ways = compareWays(
    [
      { name: "direct", lander: heronLander, profile: heronDirect },
      { name: "cached", lander: heronLander, profile: heronCached },
      { name: "mixture ratio 5", lander: leaner, profile: heronDirect },
      { name: "five engines", lander: heronLander, profile: fewer },
    ],
    heronMission,
    densities,
  );
  expect(ways.map(({ name }) => name)).toEqual(["direct", "cached", "mixture ratio 5", "five engines"]);
  const [direct, cached, mixture, five] = ways;
  expect(direct!.savingKg).toBe(0);
  expect(cached!.savingKg).toBeGreaterThan(4000);
  const hydrogen = (way: typeof direct) => way!.demand.find(({ propellantId }) => propellantId === "hydrogen")!.loadKg;
  expect(hydrogen(mixture)).toBeGreaterThan(hydrogen(direct));
  expect(five).toMatchObject({
    sheet: null,
    refusal: expect.stringContaining("lights 5 engines"),
  });
});
