/** What follows from a heat balance, as the window says it. */
import "../with-dom.ts";
import { screen } from "@testing-library/react";
import { afterEach, expect, it } from "vitest";
import type { HeatBalance } from "../../../app/entity/heat-balance.ts";
import { doubleAluminisedMylarSilkNet } from "../../../app/storage/insulation-material.ts";
import { HeatResult } from "../../../renderer/forms/heat/heat-result.tsx";
import { useApp } from "../../../renderer/state/use-session.ts";
import { withoutPictures } from "../bare-pictures.ts";
import { openPage } from "../planner-page.tsx";

let page: Awaited<ReturnType<typeof openPage>>;
afterEach(async () => {
  await page.close();
});

const balance: HeatBalance = {
  kind: "heat balance",
  fluid: "H2",
  pressureKPa: 101.325,
  insulation: {
    kind: "layers",
    areaM2: 120,
    material: doubleAluminisedMylarSilkNet,
    layers: 45,
    layersPerCm: 10.055,
    hotK: 305,
    residualGasTorr: 0,
    degradationFactor: 2,
  },
  paths: [],
  environmentFactor: 1,
  coolers: [
    { name: "Cooler", lift: [{ temperatureK: 20, liftW: 20 }], powerW: 3000, massKg: 200, isRunning: true, note: "" },
  ],
};

const Shown = () => {
  const plan = useApp((state) => state.current?.plan ?? null);
  return plan === null ? null : <HeatResult balance={balance} plan={plan} tankId="tarn-hydrogen" isTyped={false} />;
};

it("says 30 days constant, the hold time with and without coolers, and the caution under 70 K", async () => {
  withoutPictures();
  page = await openPage(<Shown />);
  expect(await screen.findByText(/^In 30 days, constant, of /)).toBeTruthy();
  expect(
    screen.getByText(/^Closed, with the coolers as described \(20\.0 W of lift\): .* With no cooler running: /),
  ).toBeTruthy();
  expect(screen.getByText(/not tested with cold sides under 70 K/)).toBeTruthy();
});
