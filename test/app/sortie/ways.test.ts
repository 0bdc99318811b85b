/** Ways to fly a sortie, compared. */
import { expect, test } from "vitest";
import { heronCached, heronDirect, heronLander, heronMission } from "../../../app/demo/heron.ts";
import { compareWays, flightsFor } from "../../../app/sortie/ways.ts";
import { densities } from "./example.ts";

const delivery = [
  { propellantId: "hydrogen", deliveredKg: 1500 },
  { propellantId: "oxygen", deliveredKg: 8500 },
  { propellantId: "hydrazine", deliveredKg: 200 },
];

test("flights count what each sortie uses up, and the first load in full", () => {
  // First 10 t, then 9 t a sortie: 10 + 2·9 = 28 t in flights of 5 t.
  const demand = [{ propellantId: "oxygen", loadKg: 10_000, returnKg: 1000 }];
  expect(flightsFor(demand, 3, [{ propellantId: "oxygen", deliveredKg: 5000 }])).toBe(6);
  expect(flightsFor(demand, 3, [])).toBeNull();
  expect(flightsFor(demand, 0, [])).toBe(0);
});

test("a way that cannot be flown stays in the comparison with the reason; the cached way saves flights", () => {
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
    { sorties: 6, delivery },
  );
  expect(ways.map(({ name }) => name)).toEqual(["direct", "cached", "mixture ratio 5", "five engines"]);
  const [direct, cached, mixture, five] = ways;
  expect(direct!.savingKg).toBe(0);
  expect(cached!.savingKg).toBeGreaterThan(4000);
  expect(cached!.tankerFlights).toBeLessThan(direct!.tankerFlights!);
  const hydrogen = (way: typeof direct) => way!.demand.find(({ propellantId }) => propellantId === "hydrogen")!.loadKg;
  expect(hydrogen(mixture)).toBeGreaterThan(hydrogen(direct));
  expect(five).toMatchObject({
    sheet: null,
    tankerFlights: null,
    refusal: expect.stringContaining("lights 5 engines"),
  });
});
