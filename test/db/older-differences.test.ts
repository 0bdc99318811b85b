/** Differences kept in an older form: a row that was given a property since is still the row that was kept. */
import { expect, test } from "vitest";
import { agrees, differenceOf, withDifference } from "../../db/row-difference.ts";
import { flight, smallPlan } from "../app/forecast/small-plan.ts";

type Row = Parameters<typeof differenceOf>[0];

const { lostAt: _lostAt, ...old } = flight("f1", 3, 8, 5000);
const later = { ...old, note: "Held by weather." };
const kept = differenceOf(old as Row, later as Row);
const now = { ...later, lostAt: null } as Row;

test("a flight that was moved before flights said when they were lost can still be moved back", () => {
  expect(agrees(now, kept.after)).toBe(true);
  const back = withDifference(now, kept.before);
  expect(back).toEqual({ ...old, lostAt: null });
  expect(agrees(back, kept.before)).toBe(true);
});

test("one that says more since, or was changed by other means, cannot", () => {
  expect(agrees({ ...now, lostAt: 1 } as Row, kept.after)).toBe(false);
  expect(agrees({ ...now, name: "Other" } as Row, kept.after)).toBe(false);
});

test("properties that were added one after the other, each in its own form, are all passed over; so they are in rows kept whole", () => {
  const [craftClass] = smallPlan({}).craftClasses;
  const { hardwareKg: _hardwareKg, ...form150 } = craftClass!;
  const edited = { ...form150, note: "Two trips a month." };
  const change = differenceOf(form150 as Row, edited as Row);
  const form160 = { ...edited, hardwareKg: null };
  const next = { ...form160, addedLater: null };
  for (const row of [form160, next]) {
    expect(agrees(row as Row, change.after)).toBe(true);
    expect(agrees(row as Row, JSON.stringify(edited))).toBe(true);
    expect(withDifference(row as Row, change.before)).toEqual({ ...row, note: form150.note });
  }
  expect(agrees({ ...next, hardwareKg: 900 }, change.after)).toBe(false);
  expect(agrees({ ...next, note: "" }, JSON.stringify(edited))).toBe(false);
  const inForm160 = differenceOf({ ...form160, note: "" }, { ...form160, hardwareKg: 900 });
  expect(agrees({ ...next, hardwareKg: 900 }, inForm160.after)).toBe(true);
});
