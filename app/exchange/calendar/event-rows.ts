/** Events of a calendar as flights and sorties: our own by their UID, others by the tanker and depot that their words name. */
import type { Entity } from "../../entity/entities.ts";
import { DAY_MS } from "../../ground/quantity.ts";
import { type PlanContext, slugOf } from "../rows/plan-context.ts";
import type { PlanRow } from "../rows/row-effects.ts";
import type { CalendarEvent } from "./calendar-event.ts";
import { eventUid } from "../../report/format/event-uid.ts";

export interface EventRow {
  readonly value: unknown;
  readonly before: PlanRow | null;
}

type Said = (reason: string) => void;

/** Calendars keep whole seconds. */
const SECOND_MS = 1000;
const isMoved = (at: number, before: number): boolean => Math.abs(at - before) >= SECOND_MS;
const kept = (at: number | null, before: number): number => (at !== null && isMoved(at, before) ? at : before);

/** Rows of the plan by the UID that an exported event of theirs has, whichever case it was exported from. */
export const rowsByUid = <R extends PlanRow>(
  kind: "flight" | "sortie" | "berth",
  rows: readonly R[],
  planCaseIds: readonly string[],
): ReadonlyMap<string, R> =>
  new Map(rows.flatMap((row) => planCaseIds.map((caseId) => [eventUid(kind, row.key, caseId, null), row] as const)));

const statusOf = <S extends string>(event: CalendarEvent, before: S, whenConfirmed: S, whenPlanned: S): S => {
  const isOpen = before === whenPlanned || before === whenConfirmed || before === "cancelled";
  if (!isOpen) return before;
  if (event.isCancelled) return "cancelled" as S;
  if (event.isConfirmed === null) return before === "cancelled" ? whenPlanned : before;
  return event.isConfirmed ? whenConfirmed : whenPlanned;
};

/** `berth`: the event of its time at the port, where the calendar has it. */
export const knownFlight = (
  event: CalendarEvent,
  before: Entity<"flight">,
  berth: CalendarEvent | undefined,
): EventRow => {
  const berthMs =
    berth === undefined || berth.startAt === null || berth.endAt === null ? null : berth.endAt - berth.startAt;
  const isOtherBerth = berthMs !== null && berthMs >= 0 && isMoved(berthMs, before.berthDays * DAY_MS);
  return {
    before,
    value: {
      ...before,
      departAt: kept(event.startAt, before.departAt),
      arriveAt: kept(event.endAt ?? event.startAt, before.arriveAt),
      berthDays: isOtherBerth ? berthMs / DAY_MS : before.berthDays,
      status: statusOf(event, before.status, "firm", "planned"),
    },
  };
};

export const knownSortie = (event: CalendarEvent, before: Entity<"sortie">): EventRow => ({
  before,
  value: {
    ...before,
    loadAt: kept(event.startAt, before.loadAt),
    returnAt: kept(event.endAt ?? event.startAt, before.returnAt),
    status: statusOf(event, before.status, "planned", "planned"),
  },
});

interface Named {
  readonly id: string;
  readonly name: string;
}

/** The things that the words name, longest name first; a name inside a longer one that stands there does not count. */
const namedIn = <T extends Named>(words: string, rows: readonly T[]): readonly T[] => {
  let rest = ` ${words.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, " ")} `;
  return rows
    .toSorted((a, b) => b.name.length - a.name.length)
    .filter(({ name }) => {
      const plain = ` ${name
        .toLowerCase()
        .replace(/[^\p{L}\p{N}]+/gu, " ")
        .trim()} `;
      if (plain.trim() === "" || !rest.includes(plain)) return false;
      rest = rest.replaceAll(plain, " ");
      return true;
    });
};

const theOne = <T extends Named>(what: string, words: string, rows: readonly T[], say: Said): T | null => {
  const found = namedIn(words, rows);
  if (found.length > 1) say(`It names several: ${found.map(({ name }) => name).join(", ")}. Which ${what} is meant?`);
  else if (found.length === 0 && rows.length !== 1)
    say(
      `It names no ${what} of this ledger. Write its name into the event's title, such as “${rows[0]?.name ?? what}”.`,
    );
  return found.length > 1 ? null : (found[0] ?? (rows.length === 1 ? (rows[0] ?? null) : null));
};

/** Where the words say, else where tankers of this class last came from, else the only source there is. */
const sourceOf = (
  words: string,
  { entities, craftById }: PlanContext,
  classId: string | undefined,
  say: Said,
): string | null => {
  const named = namedIn(words, entities.source);
  if (named.length === 0) {
    const usual = entities.flight
      .filter(({ craftId, origin }) => origin.kind === "source" && craftById.get(craftId)?.classId === classId)
      .toSorted((a, b) => b.departAt - a.departAt)
      .map(({ origin }) => (origin.kind === "source" ? origin.sourceId : ""));
    if (usual[0] !== undefined) return usual[0];
  }
  return theOne("source", words, entities.source, say)?.id ?? null;
};

/** A short number of the whole text (FNV-1a, 32 bits), so that cut keys stay apart. */
const shortSum = (text: string): string => {
  let sum = 0x811c9dc5;
  for (let index = 0; index < text.length; index += 1) sum = Math.imul(sum ^ text.charCodeAt(index), 0x01000193);
  return (sum >>> 0).toString(36);
};

/** The key of the flight that an event of another program becomes: the same at each import. */
export const keyOfEvent = (uid: string): string => `event-${slugOf(uid).slice(0, 24)}-${shortSum(uid)}`;

export const foreignFlight = (event: CalendarEvent, context: PlanContext, say: Said): EventRow | null => {
  if (event.uid === "") say("It has no UID, so it could not be found again at the next import.");
  const key = keyOfEvent(event.uid);
  const before = context.entities.flight.find((row) => row.key === key);
  if (before !== undefined) return knownFlight(event, before, undefined);
  const { entities, classes } = context;
  const craft = theOne(
    "tanker",
    event.words,
    entities.craft.filter(({ classId }) => classes.get(classId)?.role === "tanker"),
    say,
  );
  const depot = theOne("depot", event.words, entities.depot, say);
  const craftClass = classes.get(craft?.classId ?? "");
  const sourceId = craft === null ? null : sourceOf(event.words, context, craft.classId, say);
  if (craft === null || craftClass === undefined || depot === null || sourceId === null || event.startAt === null)
    return null;
  return {
    before: null,
    value: {
      id: `${context.planCaseId}.${key}`.slice(0, 64),
      planCaseId: context.planCaseId,
      key,
      name: event.summary.replace(/\s+/g, " ").trim().slice(0, 80),
      craftId: craft.id,
      origin: { kind: "source", sourceId },
      depotId: depot.id,
      departAt: event.startAt,
      arriveAt: event.endAt ?? event.startAt + craftClass.tripDays * DAY_MS,
      berthDays: craftClass.berthDays,
      loads: craftClass.propellants.map(({ propellantId, loadKg }) => ({ propellantId, loadedKg: loadKg })),
      overflow: "keep aboard",
      status: event.isConfirmed === true ? "firm" : "planned",
      note: "",
    },
  };
};
