/** What a person asks of the resupply search, as plain data. */
import { z } from "zod";
import { days, id, instant, massKg } from "../ground/quantity.ts";

const classAsked = z.strictObject({
  classId: id,
  /** Hulls that can fly at a time; null: as many as wanted. */
  hulls: z.int().min(0).max(99).nullable(),
  /** Least days from the end of a stay at the port to the hull's next departure. */
  turnaroundDays: days,
  /** What one flight costs; null: class default says. */
  costPerFlight: z.number().min(0).max(1e12).nullable(),
  /** Its flights arrive every so many days, from the first that can be there, whatever `arrivals` says; null: as that says. */
  everyDays: z.number().min(0.25).max(1000).nullable().default(null),
});

export const resupplyAsked = z.strictObject({
  /** Tanker classes that may fly; empty: every one, with the turnaround and cost of the class and hulls as wanted. */
  classes: z.array(classAsked).max(20),
  /** Instants at which flights may arrive. */
  arrivals: z.discriminatedUnion("kind", [
    /** The windows of the depot; every week where it has none. */
    z.strictObject({ kind: z.literal("windows") }),
    z.strictObject({ kind: z.literal("every"), days: z.number().min(0.25).max(1000) }),
    z.strictObject({ kind: z.literal("list"), at: z.array(instant).max(5000) }),
  ]),
  /** Besides, each loading less the longest handover. */
  isBeforeLoadings: z.boolean(),
  /** No flight arrives in these. */
  blackouts: z.array(z.strictObject({ fromAt: instant, untilAt: instant })).max(200),
  /** What counts as held: the reserve kept, or the sortie flown. */
  goal: z.enum(["supplied", "flies"]),
  /** With "supplied": so much above the reserve besides, at each depot with a tank for it, after each loading. */
  margins: z
    .array(z.strictObject({ propellantId: id, massKg }))
    .max(50)
    .default([]),
  least: z.enum(["flights", "cost", "loss"]),
  /** Any so many of the flights to come may be lost. */
  lost: z.union([z.literal(0), z.literal(1), z.literal(2)]),
  /**
   * All sorties are to fly when planned with this probability at least: of plans that hold with more and more flights
   * lost, from `lost` on, the first that the risk run bears out. null: not asked.
   */
  chance: z.number().min(0.01).max(0.9999).nullable().default(null),
  /** Tankers may also fly from one depot to another, arriving when flights of their class may; null: they may not. */
  betweenDepots: z
    .strictObject({
      /** Days of such a transit. */
      tripDays: z.number().min(0.01).max(1000),
      /** What one such flight costs; null: as much as any of its class. */
      costPerFlight: z.number().min(0).max(1e12).nullable(),
    })
    .nullable()
    .default(null),
  /** Planned flights (not firm ones) may be left out or replaced. */
  mayReplace: z.boolean(),
  /** Flights to come that are planned or proposed, at most; null: no limit. */
  mostFlights: z.int().min(0).max(5000).nullable(),
  /** What they may cost in all; null: no limit. */
  budget: z.number().min(0).max(1e15).nullable(),
  /** Sorties may move by up to so many days either way; 0: they stay. */
  moveSortiesDays: z.int().min(0).max(60).default(0),
  /** Sorties that load later than this are left out of account; null: all to the end of the plan. */
  untilAt: instant.nullable(),
});

export type ResupplyAsked = Readonly<z.infer<typeof resupplyAsked>>;

/** The question as it stands before anybody has chosen. */
export const usualAsked: ResupplyAsked = {
  classes: [],
  arrivals: { kind: "windows" },
  isBeforeLoadings: true,
  blackouts: [],
  goal: "supplied",
  margins: [],
  least: "flights",
  lost: 0,
  chance: null,
  betweenDepots: null,
  mayReplace: false,
  mostFlights: null,
  budget: null,
  moveSortiesDays: 0,
  untilAt: null,
};
