/** Columns and cells of the table follow from the lines of the fields: a number that may be empty, a choice, its lock. */
import { expect, it } from "vitest";
import type { Flight } from "../../../app/entity/flight.ts";
import { type FieldTable, fieldsOf, openChoices } from "../../../app/fields/field.ts";
import { flightFields } from "../../../app/fields/flight-fields.ts";
import { fieldCells } from "../../../renderer/timeline/table/field-cells.ts";
import { fieldColumns } from "../../../renderer/timeline/table/field-columns.ts";
import { flightCells } from "../../../renderer/timeline/table/flight-cells.ts";
import { flightColumns } from "../../../renderer/timeline/table/columns.tsx";
import { cellText, headingText } from "../../../renderer/widgets/data-table/column.ts";
import { smallPlan } from "./small-plan.ts";

const plan = smallPlan();

interface Trial {
  readonly id: string;
  readonly dockPriority: number | null;
  readonly holdDays: number;
}

const trialFields = {
  id: null,
  dockPriority: {
    label: "Dock priority",
    words: "dock priority",
    value: { kind: "number", unit: "", min: 0, max: 99, isWhole: true, decimals: 0, emptyWords: "none" },
    held: "begun",
    form: null,
    sheet: { id: "dock-priority" },
    rows: null,
    compare: "by value",
  },
  holdDays: {
    label: "Held before docking",
    words: "hold",
    value: { kind: "number", unit: "days", min: 0, max: 30, decimals: 2 },
    held: null,
    form: null,
    sheet: { id: "hold", heading: "Held" },
    rows: null,
    compare: "by value",
  },
} as const satisfies FieldTable<Trial>;

const row: Trial = { id: "f", dockPriority: 4, holdDays: 0.25 };
const cells = (isBegun: boolean) =>
  fieldCells<Trial, typeof trialFields>(
    plan,
    trialFields,
    ["holdDays"],
    { begun: () => (isBegun ? "It has begun." : null), over: () => null },
    {},
  );

it("a column has the heading, unit and decimals of its field, and nothing where it is empty", () => {
  const columns = fieldColumns<Trial, Trial, typeof trialFields>(plan, trialFields, ["holdDays"], (each) => each, {});
  expect(columns.map(headingText)).toEqual(["Held, days", "Dock priority"]);
  expect(columns.map((column) => cellText(column, row))).toEqual(["0.25", "4"]);
  expect(columns.map((column) => cellText(column, { ...row, dockPriority: null }))).toEqual(["0.25", ""]);
});

it("a cell takes what lies in the range, empties what may be empty, and is fixed by its record", () => {
  const cell = cells(false).get("dock-priority");
  expect(cell?.put(row, "7")).toEqual({ ok: true, value: { ...row, dockPriority: 7 } });
  expect(cell?.put(row, "")).toEqual({ ok: true, value: { ...row, dockPriority: null } });
  expect(cell?.put(row, "120")).toEqual({ ok: false, fault: "120 is out of range: 0 to 99." });
  expect(cell?.put(row, "2.5")).toEqual({ ok: false, fault: "A whole number is needed." });
  expect(cell?.draft({ ...row, dockPriority: null })).toBe("");
  expect(cells(false).get("hold")?.put(row, "")).toMatchObject({ ok: false });
  expect(cells(true).get("dock-priority")?.fixed(row)).toBe("It has begun.");
  expect(cells(true).get("hold")?.fixed(row)).toBeNull();
});

it("every field of a flight with a column in the table is written there, by its choices alone", () => {
  const columns = flightColumns(plan, plan.flights, "kg");
  const written = flightCells(plan, false);
  for (const [, { sheet, value }] of fieldsOf<Flight>(flightFields)) {
    if (sheet === null) continue;
    expect(columns.find(({ id }) => id === sheet.id)?.edit).toBeDefined();
    if (value.kind === "choice")
      expect(written.get(sheet.id)?.choices).toEqual(openChoices(value.choices).map(({ name }) => name));
  }
});
