/** The lines of the fields say what the schemas allow, and differences are told in words however small. */
import type { z } from "zod";
import { expect, test } from "vitest";
import { flight } from "../../../app/entity/flight.ts";
import { sortie } from "../../../app/entity/sortie.ts";
import { fieldDifferences, saidBy } from "../../../app/fields/differences.ts";
import { type Field, type FieldTable, fieldsOf } from "../../../app/fields/field.ts";
import { flightFields } from "../../../app/fields/flight-fields.ts";
import { sortieFields } from "../../../app/fields/sortie-fields.ts";

/** Values at the edges of what a line lets people type. */
const edgesOf = ({ value }: Field<never>): readonly unknown[] => {
  if (value.kind === "number") return [value.min, value.max, ...("emptyWords" in value ? [null] : [])];
  if (value.kind === "choice") return value.choices.map(({ id }) => id);
  return value.kind === "text" || value.kind === "note" ? ["x".repeat(value.most)] : [];
};

/** Properties of which the schema refuses what their line lets people type. */
const refused = <E extends object>(table: FieldTable<E>, shape: Readonly<Record<string, z.ZodType>>) =>
  fieldsOf<E>(table).flatMap(([property, field]) =>
    edgesOf(field as Field<never>).flatMap((edge) =>
      shape[property]?.safeParse(edge).success === true ? [] : [[property, edge]],
    ),
  );

test("what form and table let people type, the schema takes", () => {
  expect(refused(flightFields as FieldTable<z.infer<typeof flight>>, flight.shape)).toEqual([]);
  expect(refused(sortieFields as FieldTable<z.infer<typeof sortie>>, sortie.shape)).toEqual([]);
  const longer = { ...flightFields, name: { ...flightFields.name, value: { kind: "text", most: 81 } } } as const;
  expect(refused(longer as FieldTable<z.infer<typeof flight>>, flight.shape)).toEqual([["name", "x".repeat(81)]]);
});

test("every choice of a schema is one of its field", () => {
  const idsOf = (choices: readonly { readonly id: string }[]) => choices.map(({ id }) => id).toSorted();
  expect(idsOf(flightFields.status.value.choices)).toEqual(flight.shape.status.options.toSorted());
  expect(idsOf(flightFields.overflow.value.choices)).toEqual(flight.shape.overflow.options.toSorted());
  expect(idsOf(sortieFields.status.value.choices)).toEqual(sortie.shape.status.options.toSorted());
});

test("no two fields of a table share a column", () => {
  for (const fields of [Object.values(flightFields), Object.values(sortieFields)])
    for (const part of ["rows", "sheet"] as const) {
      const ids = fields.flatMap((field) => field?.[part]?.id ?? []);
      expect(new Set(ids).size).toBe(ids.length);
    }
});

interface Trial {
  readonly massKg: number | null;
  readonly dueAt: number;
  readonly hold: number;
  readonly by: string;
}
const plain = { held: null, form: null, sheet: null, rows: null, compare: "by value" } as const;
const trialFields = {
  massKg: {
    label: "Cargo",
    words: "cargo",
    value: { kind: "number", unit: "kg", min: 0, max: 1e6, decimals: 0, emptyWords: "none" },
    ...plain,
  },
  dueAt: { label: "Due", words: "due date", value: { kind: "instant" }, ...plain },
  hold: {
    label: "Held",
    words: "hold",
    value: { kind: "number", unit: "days", min: 0, max: 9, decimals: 1 },
    ...plain,
  },
  by: { label: "Tug", words: "tug", value: { kind: "named", of: "craft", what: "tug" }, ...plain },
} as const satisfies FieldTable<Trial>;

test("a value that differs is told in its unit and by its name, and one that differs too little in full", () => {
  const nameOf = (kind: string, id: string) => `${kind} ${id}`;
  const row: Trial = { massKg: 1200, dueAt: Date.UTC(2031, 1, 20), hold: 1, by: "a" };
  const told = (after: Partial<Trial>) =>
    fieldDifferences<Trial>(trialFields, ["by"], row, { ...row, ...after }, nameOf).map((words) =>
      words.replaceAll(/\s/g, " "),
    );
  expect(told({})).toEqual([]);
  expect(told({ massKg: null, by: "b" })).toEqual(["tug craft b instead of craft a", "cargo none instead of 1.20 t"]);
  expect(told({ dueAt: Date.UTC(2031, 1, 24) })).toEqual(["due 2031-02-24 instead of 2031-02-20, 4 days later"]);
  expect(told({ hold: 2.5 })).toEqual(["held 2.5 days instead of 1 day"]);
  expect(told({ massKg: 1200.004 })).toEqual(["cargo 1200.004 instead of 1200"]);
  expect(saidBy<Trial>(trialFields, { ...row, massKg: null }, nameOf)).toEqual([
    ["cargo", ""],
    ["due", "2031-02-20"],
    ["held", "1 day"],
    ["tug", "craft a"],
  ]);
});
