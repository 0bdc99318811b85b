/**
 * Departure windows of a near-rectilinear halo orbit. The 9:2 resonance makes nine revolutions in two synodic months:
 * 29.530589 / 4.5 = 6.56235 days (closed form; published as 6.56 days). The synodic month is that of the almanacs.
 */
import { expect, it } from "vitest";
import { forecast } from "../../app/forecast/forecast.ts";
import { nextWindow, windowsBetween } from "../../app/entity/windows.ts";
import { day, depot, flight, smallPlan, sortie } from "../app/forecast/small-plan.ts";

const SYNODIC_MONTH_DAYS = 29.530589;
const halo = { windowPeriodDays: 6.56235, windowReferenceAt: day(0) };

it("nine windows open in two synodic months, to three minutes", () => {
  const ninth = windowsBetween(halo, day(0), day(70))[9] ?? 0;
  expect(Math.abs(ninth - day(2 * SYNODIC_MONTH_DAYS))).toBeLessThan(3 * 60_000);
});

it("a year has 55 of them", () => expect(windowsBetween(halo, day(0.001), day(365.25)).length).toBe(55));

it("a sortie that waits loses at most one revolution to the orbit", () => {
  for (const arrival of [3, 9.4, 20, 26.2, 39.9]) {
    const [seen] = forecast(
      smallPlan({
        depots: [depot("tarn", halo)],
        shortPolicy: "wait",
        holdLimitDays: 60,
        flights: [flight("f", 0, arrival, 5000)],
        sorties: [sortie("s", 0, 5000)],
      }),
    ).sorties;
    expect(seen?.loadedAt).toBe(nextWindow(halo, day(arrival)));
    expect(seen?.loadedAt ?? Infinity).toBeLessThan(day(arrival + 6.56235) + 1);
  }
});
