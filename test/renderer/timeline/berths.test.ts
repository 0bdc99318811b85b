/** Ports: who gets one, and who finds none free. */
import { expect, it } from "vitest";
import { packRows } from "../../../renderer/timeline/layout/pack-rows.ts";
import { berths } from "../../../renderer/timeline/layout/port-shapes.ts";
import { smallPlan } from "./small-plan.ts";

const { flights } = smallPlan();
const ports = (count: number) => berths(flights, "shelf", count).map((berth) => berth.port);

it("with one port the third flight finds none free", () => expect(ports(1)).toEqual([0, 0, 1]));
it("with two it takes the second", () => expect(ports(2)).toEqual([0, 0, 1]));
it("without any all are refused", () => expect(ports(0)).toEqual([0, 0, 0]));
it("a lost flight needs no port", () => {
  const lost = flights.map((flight) => (flight.id === "flight-2" ? { ...flight, status: "lost" as const } : flight));
  expect(berths(lost, "shelf", 1).map((berth) => berth.port)).toEqual([0, 0]);
});

it("rows are as many as bars overlap at once, and one for none", () => {
  const span = (id: string, fromAt: number, untilAt: number) => ({ id, fromAt, untilAt });
  const packing = packRows([span("a", 0, 10), span("b", 5, 15), span("c", 12, 20), span("d", 16, 30)], 0);
  expect([...packing.rowOf]).toEqual([
    ["a", 0],
    ["b", 1],
    ["c", 0],
    ["d", 1],
  ]);
  expect(packing.rows).toBe(2);
  expect(packRows([], 0).rows).toBe(1);
});
