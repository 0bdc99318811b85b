/** What is done with several at once, over random plans: spans and order stay, copies lie on nothing, the rest is not touched. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyChanges } from "../../../app/entity/plan-changes.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import {
  clearOfOriginals,
  copyMany,
  fromHereOn,
  handStatuses,
  isMovable,
  isStatusOpen,
  roomToShift,
  rowsOfMany,
  setStatusOfMany,
  shiftMany,
  spanOf,
} from "../../../renderer/inspector/many/many-changes.ts";
import { randomPlan } from "../../property/random-plan.ts";
import { smallPlan } from "../timeline/small-plan.ts";

const range = { days: 60, flights: 6, sorties: 6, constantLoss: false, betweenDepots: true };
const flightStatuses = ["planned", "firm", "departed", "arrived", "lost", "cancelled"] as const;
const sortieStatuses = ["planned", "departed", "flown", "stood down", "cancelled"] as const;

/** A plan whose rows stand in any status, and which of its rows are chosen. */
const chosen = randomPlan(range).chain((plan) =>
  fc
    .tuple(
      fc.array(fc.tuple(fc.constantFrom(...flightStatuses), fc.boolean()), {
        minLength: plan.flights.length,
        maxLength: plan.flights.length,
      }),
      fc.array(fc.tuple(fc.constantFrom(...sortieStatuses), fc.boolean()), {
        minLength: plan.sorties.length,
        maxLength: plan.sorties.length,
      }),
    )
    .map(([flights, sorties]) => {
      const mixed: PlanSnapshot = {
        ...plan,
        flights: plan.flights.map((row, n) => ({ ...row, status: flights[n]?.[0] ?? "planned" })),
        sorties: plan.sorties.map((row, n) => ({ ...row, status: sorties[n]?.[0] ?? "planned" })),
      };
      const refs = [
        ...mixed.flights.filter((_, n) => flights[n]?.[1] === true).map(({ id }) => ({ kind: "flight" as const, id })),
        ...mixed.sorties.filter((_, n) => sorties[n]?.[1] === true).map(({ id }) => ({ kind: "sortie" as const, id })),
      ];
      return { plan: mixed, rows: rowsOfMany(mixed, refs) };
    })
    .filter(({ rows }) => rows.length > 0),
);

describe("moving together", () => {
  it("moves what can be moved by just that time, leaves all else, and is undone by moving back", () => {
    fc.assert(
      fc.property(chosen, fc.nat(), ({ plan, rows }, pick) => {
        const { least, most } = roomToShift(plan, rows);
        const days = least + (pick % (most - least + 1));
        const after = applyChanges(plan, shiftMany(rows, days).changes);
        const ids = new Set(rows.filter(isMovable).map(({ row }) => row.id));
        for (const [n, flight] of after.flights.entries()) {
          const before = plan.flights[n]!;
          const by = ids.has(flight.id) ? days * DAY_MS : 0;
          expect(flight.arriveAt).toBe(before.arriveAt + by);
          expect(flight.departAt).toBe(before.departAt + (before.status === "departed" ? 0 : by));
        }
        for (const [n, sortie] of after.sorties.entries()) {
          const before = plan.sorties[n]!;
          const by = ids.has(sortie.id) ? days * DAY_MS : 0;
          expect(sortie.returnAt).toBe(before.returnAt + by);
          expect(sortie.loadAt).toBe(before.loadAt + (before.status === "departed" ? 0 : by));
        }
        const back = rowsOfMany(
          after,
          rows.map(({ kind, row }) => ({ kind, id: row.id })),
        );
        expect(applyChanges(after, shiftMany(back, -days).changes)).toEqual(plan);
      }),
      { numRuns: 150 },
    );
  });

  it("never leads into the recorded past or beyond the plan's end what did not lie there", () => {
    fc.assert(
      fc.property(chosen, ({ plan, rows }) => {
        const { least, most } = roomToShift(plan, rows);
        for (const days of [least, most])
          for (const change of shiftMany(rows, days).changes) {
            if (change.op !== "put" || change.kind !== "flight") continue;
            const before = plan.flights.find(({ id }) => id === change.value.id)!;
            expect(change.value.arriveAt).toBeGreaterThanOrEqual(Math.min(before.arriveAt, plan.asOfAt));
            if (before.status !== "departed")
              expect(change.value.departAt).toBeGreaterThanOrEqual(Math.min(before.departAt, plan.asOfAt));
            expect(change.value.arriveAt).toBeLessThanOrEqual(Math.max(before.arriveAt, plan.horizonAt));
          }
      }),
      { numRuns: 150 },
    );
  });
});

it("copies have ids, keys and names of their own, begin after all originals have ended, and leave those as they are", () => {
  fc.assert(
    fc.property(chosen, ({ plan, rows }) => {
      const days = clearOfOriginals(plan, rows);
      const { changes, copies } = copyMany(plan, rows, days);
      const after = applyChanges(plan, changes);
      expect(after.flights.slice(0, plan.flights.length)).toEqual(plan.flights);
      expect(after.sorties.slice(0, plan.sorties.length)).toEqual(plan.sorties);
      expect(copies).toHaveLength(rows.length);
      for (const rowsAfter of [after.flights, after.sorties])
        for (const part of ["id", "key", "name"] as const)
          expect(new Set(rowsAfter.map((row) => row[part])).size).toBeGreaterThanOrEqual(
            new Set((rowsAfter === after.flights ? plan.flights : plan.sorties).map((row) => row[part])).size +
              copies.filter(({ kind }) => (kind === "flight") === (rowsAfter === after.flights)).length,
          );
      const made = rowsOfMany(after, copies);
      expect(spanOf(made).fromAt).toBeGreaterThanOrEqual(Math.max(spanOf(rows).untilAt, plan.asOfAt));
      expect(made.every(({ row }) => row.status === "planned")).toBe(true);
    }),
    { numRuns: 150 },
  );
});

it("a copy of what was lost or stood down is planned, and knows nothing of that", () => {
  const base = smallPlan();
  const at = base.asOfAt;
  const plan = {
    ...base,
    flights: base.flights.map((row) => ({ ...row, status: "lost" as const, lostAt: at })),
    sorties: base.sorties.map((row) => ({ ...row, status: "stood down" as const, stoodDownAt: at })),
  };
  const all = [
    ...plan.flights.map(({ id }) => ({ kind: "flight" as const, id })),
    ...plan.sorties.map(({ id }) => ({ kind: "sortie" as const, id })),
  ];
  const made = copyMany(plan, rowsOfMany(plan, all), 30).changes.map((change) =>
    change.op === "put" ? change.value : {},
  );
  expect(made).toHaveLength(all.length);
  for (const row of made) {
    expect(row).toMatchObject({ status: "planned" });
    expect(row).toMatchObject("arriveAt" in row ? { lostAt: null } : { stoodDownAt: null });
  }
});

it("a status is set where a person sets it, and nowhere else", () => {
  fc.assert(
    fc.property(chosen, fc.constantFrom(...handStatuses), ({ rows }, status) => {
      const changed = new Map(
        setStatusOfMany(rows, status).changes.flatMap((change) =>
          change.op === "put" ? [[change.value.id, change.value]] : [],
        ),
      );
      for (const each of rows) {
        const isToChange = isStatusOpen(each) && each.row.status !== status;
        expect(changed.get(each.row.id)).toEqual(isToChange ? { ...each.row, status } : undefined);
      }
      expect(changed.size).toBeLessThanOrEqual(rows.length);
    }),
    { numRuns: 100 },
  );
});

it("from one on: itself and all that begins no earlier and can be moved", () => {
  fc.assert(
    fc.property(chosen, ({ plan, rows }) => {
      const [{ kind, row }] = rows as [(typeof rows)[number]];
      const at = "departAt" in row ? row.departAt : row.loadAt;
      const found = new Set(fromHereOn(plan, { kind, id: row.id }).map(({ id }) => id));
      expect(found.has(row.id)).toBe(true);
      for (const flight of plan.flights)
        if (flight.id !== row.id)
          expect(found.has(flight.id)).toBe(
            flight.departAt >= at && ["planned", "firm", "departed"].includes(flight.status),
          );
    }),
    { numRuns: 100 },
  );
});
