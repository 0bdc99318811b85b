/** Differences kept in an older form: a row that was given a property since is still the row that was kept. */
import { expect, test } from "vitest";
import { agrees, differenceOf, withDifference } from "../../db/row-difference.ts";
import { flight } from "../app/forecast/small-plan.ts";

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
