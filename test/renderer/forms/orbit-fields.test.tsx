/** A depot's orbit as it is stated in its form: what follows from it, and what is refused. */
import "../with-dom.ts";
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/react";
import { useState } from "react";
import { afterEach, expect, it } from "vitest";
import type { Depot } from "../../../app/entity/depot.ts";
import { checkEntity, wordsFor } from "../../../renderer/editing/editing.ts";
import { OrbitFields } from "../../../renderer/forms/orbit-fields.tsx";
import { START, depot, smallPlan } from "../../app/forecast/small-plan.ts";

afterEach(cleanup);

const seen: { now: Depot } = { now: depot("tarn") };
const see = (value: Depot): void => {
  seen.now = value;
};

/** The form over a depot that takes what is allowed. */
const Form = ({ begin }: { begin: Depot }) => {
  const [value, setValue] = useState(begin);
  const fault = checkEntity("depot", value);
  return (
    <OrbitFields
      edit={{
        value,
        plan: smallPlan({}),
        isNew: true,
        isReadOnly: false,
        change: (patch) => {
          const next = { ...value, ...patch };
          see(next);
          setValue(next);
        },
        faultOf: (field) => wordsFor(fault, field),
      }}
    />
  );
};

const type = (label: RegExp, text: string): void => {
  const field = screen.getByRole("textbox", { name: label });
  fireEvent.focus(field);
  fireEvent.change(field, { target: { value: text } });
  fireEvent.blur(field);
};

it("says how long one revolution takes, offers it as the time between windows, and refuses a lowest point above the highest", async () => {
  render(<Form begin={depot("tarn", { windowPeriodDays: 7, windowReferenceAt: START })} />);
  fireEvent.click(screen.getByRole("button", { name: "State its heights and plane" }));
  // A circular orbit 100 km up takes a little under two hours, 118 minutes (common practice).
  await waitFor(() => expect(screen.getByText(/1\.96\sh/)).toBeTruthy());
  type(/Highest point/, "70000");
  type(/Lowest point/, "3000");
  await waitFor(() => expect(seen.now.lunarOrbit?.heights).toEqual({ periapsisKm: 3000, apoapsisKm: 70_000 }));
  fireEvent.click(screen.getByRole("button", { name: "Take it as the time between windows" }));
  // Kepler's third law, by hand: a = 1,737.4 + 36,500 km, μ = 4,902.8 km³/s²: 2π·√(a³ ÷ μ) = 670,960 s.
  expect((seen.now.windowPeriodDays ?? 0) * 86_400).toBeCloseTo(2 * Math.PI * Math.sqrt(38_237.4 ** 3 / 4902.8), -2);
  expect(seen.now.windowReferenceAt).toBe(START);
  expect(screen.queryByText(/windows are stated every/)).toBeNull();
  type(/Lowest point/, "80000");
  await waitFor(() => expect(screen.getByText(/must not be higher than the apoapsis/)).toBeTruthy());
});

it("offers no windows where nobody has said when one is open", async () => {
  render(<Form begin={depot("tarn")} />);
  fireEvent.click(screen.getByRole("button", { name: "State its heights and plane" }));
  await waitFor(() => expect(screen.getByText("One revolution")).toBeTruthy());
  expect(screen.queryByRole("button", { name: "Take it as the time between windows" })).toBeNull();
});
