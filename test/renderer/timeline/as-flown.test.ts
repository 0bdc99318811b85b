/** A waiting sortie stands where it flies. */
import { expect, test } from "vitest";
import { forecast } from "../../../app/forecast/forecast.ts";
import { glance } from "../../../app/supply/glance.ts";
import { asFlown } from "../../../renderer/timeline/model/as-flown.ts";
import { day, flight, smallPlan, sortie } from "../../app/forecast/small-plan.ts";

test("short by 2 t until 5 t come on day 50: it stands on day 50 and is away as long as planned", () => {
  const plan = smallPlan({
    opening: { a: 10_000 },
    flights: [flight("f", 45, 50, 5000)],
    sorties: [sortie("s", 30, 12_000), sortie("t", 200, 1000)],
    shortPolicy: "wait",
    holdLimitDays: 30,
  });
  const { sorties } = glance(plan, forecast(plan));
  const [s, t] = plan.sorties.map((row) =>
    asFlown(
      row,
      sorties.find(({ sortieId }) => sortieId === row.id),
    ),
  );
  expect(s).toMatchObject({ loadAt: day(50), returnAt: day(60) });
  expect(t).toBe(plan.sorties[1]);
});
