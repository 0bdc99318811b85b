/** Forms follow the fields of their kind: none is left out, and a new one needs its line alone. */
import "../with-dom.ts";
import { cleanup, render, screen } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, expect, it } from "vitest";
import type { Flight } from "../../../app/entity/flight.ts";
import type { Sortie } from "../../../app/entity/sortie.ts";
import { type FieldTable, fieldsOf } from "../../../app/fields/field.ts";
import { flightFields } from "../../../app/fields/flight-fields.ts";
import { sortieFields } from "../../../app/fields/sortie-fields.ts";
import { FlightForm } from "../../../renderer/forms/flight-form.tsx";
import { SortieForm } from "../../../renderer/forms/sortie-form.tsx";
import type { Editing } from "../../../renderer/editing/editing.ts";
import { FieldRows } from "../../../renderer/editing/field-rows.tsx";
import { smallPlan } from "../../app/forecast/small-plan.ts";
import { flight, sortie } from "../../app/forecast/small-plan.ts";

afterEach(cleanup);

const plan = smallPlan({ flights: [flight("f1", 3, 8, 5000)], sorties: [sortie("s1", 20, 4000)] });

const editing = <E,>(value: E, changes: [Partial<E>, string][] = []): Editing<E> => ({
  value,
  plan,
  isNew: false,
  isReadOnly: false,
  change: (patch, words) => void changes.push([patch, words]),
  faultOf: () => null,
});

const shown = (label: string): boolean =>
  screen.queryAllByLabelText(label, { exact: false }).length > 0 || screen.queryAllByText(label).length > 0;

/** Labels of a table's fields that have a section, and are not on screen. */
const missing = <E extends object>(table: FieldTable<E>): readonly string[] =>
  fieldsOf(table).flatMap(([, { form, label }]) => (form === null || shown(label) ? [] : [label]));

it("the forms of a flight and of a sortie show every field that has a section", () => {
  render(<FlightForm edit={editing(plan.flights[0]!)} />);
  expect(missing<Flight>(flightFields)).toEqual([]);
  expect(missing<Sortie>(sortieFields)).toContain("Campaign");
  cleanup();
  render(<SortieForm edit={editing(plan.sorties[0]!)} />);
  expect(missing<Sortie>(sortieFields)).toEqual([]);
});

interface Trial {
  readonly dockPriority: number | null;
  readonly dueAt: number;
  readonly lane: "north" | "south";
}

const trialFields = {
  dockPriority: {
    label: "Dock priority",
    words: "dock priority",
    value: { kind: "number", unit: "", min: 0, max: 99, isWhole: true, decimals: 0, emptyWords: "none" },
    held: "begun",
    form: "all",
    sheet: null,
    rows: null,
    compare: "by value",
  },
  dueAt: {
    label: "Due",
    words: "due date",
    value: { kind: "instant" },
    held: null,
    form: "all",
    sheet: null,
    rows: null,
    compare: "by value",
    along: () => ({ lane: "south" }),
  },
  lane: {
    label: "Lane",
    words: "lane",
    value: {
      kind: "choice",
      choices: [
        { id: "north", name: "north lane" },
        { id: "south", name: "south lane" },
      ],
    },
    held: null,
    form: "all",
    sheet: null,
    rows: null,
    compare: "by value",
  },
} as const satisfies FieldTable<Trial>;

it("a field takes its label, range, empty words, what changes along and its lock from its line", async () => {
  const changes: [Partial<Trial>, string][] = [];
  const value: Trial = { dockPriority: 4, dueAt: Date.UTC(2031, 1, 20), lane: "north" };
  const show = (isBegun: boolean) => (
    <FieldRows
      form={{
        edit: editing(value, changes),
        table: trialFields,
        isHeld: (held) => held === "begun" && isBegun,
        own: {},
      }}
      section="all"
    />
  );
  const user = userEvent.setup();
  const { rerender } = render(show(false));
  const field = (name: string) => screen.getByRole<HTMLInputElement>("textbox", { name });
  await user.clear(field("Dock priority"));
  await user.type(field("Dock priority"), "120{Enter}");
  expect(screen.getByRole("alert").textContent).toContain("out of range: 0 to 99");
  expect(changes).toEqual([]);
  await user.clear(field("Dock priority"));
  await user.type(field("Dock priority"), "7{Enter}");
  await user.clear(field("Dock priority"));
  await user.type(field("Dock priority"), "{Enter}");
  await user.clear(field("Due"));
  await user.type(field("Due"), "2031-03-01{Enter}");
  expect(changes).toEqual([
    [{ dockPriority: 7 }, "dock priority"],
    [{ dockPriority: null }, "dock priority"],
    [{ dueAt: Date.UTC(2031, 2, 1), lane: "south" }, "due date"],
  ]);
  expect(screen.getByText("Lane")).toBeDefined();
  rerender(show(true));
  expect(field("Dock priority").readOnly).toBe(true);
  expect(field("Due").readOnly).toBe(false);
});
