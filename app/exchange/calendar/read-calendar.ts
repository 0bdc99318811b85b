/** What a calendar would bring into a plan case: moved flights or sorties that it was exported from, and new flights. */
import { checkPlanRows, type DraftRow } from "../rows/check-rows.ts";
import { noMapping } from "../../ledger/column-mapping.ts";
import { type PlanContext, planContext } from "../rows/plan-context.ts";
import { gather, type OnShare, type RowsTaking, type RowsTarget } from "../rows/read-rows.ts";
import type { RowFault } from "../rows/rows-preview.ts";
import { type CalendarEvent, readEvents } from "./calendar-event.ts";
import { type CalendarForms, checkZone, MIDNIGHTS } from "./calendar-forms.ts";
import { type EventRow, foreignFlight, knownFlight, knownSortie, rowsByUid } from "./event-rows.ts";
import { eventUid, ownEvent, withoutLedger } from "../../report/format/event-uid.ts";
import { PlanningError } from "../../ground/failure.ts";

const plural = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

interface Sorted {
  readonly drafts: readonly DraftRow<EventRow>[];
  readonly faults: readonly RowFault[];
  readonly remarks: readonly string[];
  readonly floating: number;
  readonly wholeDays: number;
  readonly rows: number;
}

type Make = (event: CalendarEvent, say: (reason: string) => void) => EventRow | "pass over" | null;

const wholeDaysWords = (wholeDays: string): string =>
  wholeDays === MIDNIGHTS
    ? "from midnight to midnight, UTC"
    : `from ${wholeDays} of the first day to ${wholeDays} of the last, UTC`;

/** Each event as a draft; those that are of another kind, or cancelled and unknown, are counted and passed over. */
const sortEvents = (events: readonly CalendarEvent[], forms: CalendarForms, make: Make): Sorted => {
  const faults: RowFault[] = [];
  const drafts: DraftRow<EventRow>[] = [];
  const seen = new Map<string, number>();
  let [passedOver, floating, wholeDays] = [0, 0, 0];
  for (const event of events) {
    const own: RowFault[] = [];
    const title = event.summary === "" ? "An event without title" : `“${event.summary.slice(0, 40)}”`;
    const fault = (_column: string | null, reason: string): void => {
      const each = { line: event.line, column: null, reason: `${title}: ${reason}` };
      own.push(each);
      faults.push(each);
    };
    const made = make(event, (reason) => fault(null, reason));
    if (made === "pass over") {
      passedOver += 1;
      continue;
    }
    const earlier = seen.get(event.uid);
    if (earlier !== undefined && event.uid !== "") fault(null, `An event with the same UID stands in line ${earlier}.`);
    seen.set(event.uid, event.line);
    for (const reason of event.faults) fault(null, reason);
    floating += Number(event.isFloating);
    wholeDays += Number(event.isWholeDays);
    drafts.push({ line: event.line, faults: own, fault, made: made ?? { value: null, before: null } });
  }
  const remarks = [
    ...(floating > 0 && forms.zone !== null
      ? [
          `${plural(floating, "event states", "events state")} times without a time zone; they are read in ${forms.zone}.`,
        ]
      : []),
    ...(wholeDays > 0 && forms.wholeDays !== null
      ? [`${plural(wholeDays, "event takes", "events take")} whole days; read ${wholeDaysWords(forms.wholeDays)}.`]
      : []),
    ...(passedOver > 0 ? [`${plural(passedOver, "event is", "events are")} of another kind, and passed over.`] : []),
  ];
  return { drafts, faults, remarks, floating, wholeDays, rows: drafts.length };
};

/** What only a person can say of these events, and has not. */
const questionsOf = ({ floating, wholeDays }: Sorted, forms: CalendarForms): readonly string[] => [
  ...(floating > 0 && forms.zone === null
    ? [`${plural(floating, "event states", "events state")} times without a time zone: in which zone are they?`]
    : []),
  ...(wholeDays > 0 && forms.wholeDays === null
    ? [
        `${plural(wholeDays, "event takes", "events take")} whole days: at which time of day (UTC) ${wholeDays === 1 ? "does it" : "do they"} begin and end?`,
      ]
    : []),
];

/** Of another ledger's export: its keys may be ours by chance, and would move what has nothing to do with it. */
const isOfAnother = (uid: string, ledgerId: string | null): boolean => {
  const own = ownEvent(uid);
  return own !== null && own.ledgerId !== null && own.ledgerId !== ledgerId;
};

const FROM_ANOTHER = "It was exported from another ledger. Take it in there, or take in that ledger itself.";

const flightMaker = (context: PlanContext, events: readonly CalendarEvent[], ledgerId: string | null): Make => {
  const caseIds = context.entities.planCase.map(({ id }) => id);
  const flights = rowsByUid("flight", context.entities.flight, caseIds);
  const byUid = new Map(events.map((event) => [withoutLedger(event.uid), event]));
  const berthOf = (key: string): CalendarEvent | undefined => {
    for (const caseId of caseIds) {
      const found = byUid.get(eventUid("berth", key, caseId, null));
      if (found !== undefined) return found;
    }
    return undefined;
  };
  return (event, say) => {
    const own = ownEvent(event.uid)?.kind ?? null;
    if (own === "flight" && isOfAnother(event.uid, ledgerId)) {
      say(FROM_ANOTHER);
      return null;
    }
    const known = flights.get(withoutLedger(event.uid));
    if (known !== undefined) return knownFlight(event, known, berthOf(known.key));
    if (own === "flight") {
      if (event.isCancelled) return "pass over";
      say("It was exported from a flight that is not in this plan case any more.");
      return null;
    }
    if (own !== null) return "pass over";
    const made = foreignFlight(event, context, event.isCancelled ? () => undefined : say);
    // A cancelled event that was never a flight here is nothing.
    return event.isCancelled && (made === null || made.before === null) ? "pass over" : made;
  };
};

const sortieMaker = (context: PlanContext, ledgerId: string | null): Make => {
  const sorties = rowsByUid(
    "sortie",
    context.entities.sortie,
    context.entities.planCase.map(({ id }) => id),
  );
  return (event, say) => {
    if (ownEvent(event.uid)?.kind === "sortie" && isOfAnother(event.uid, ledgerId)) {
      say(FROM_ANOTHER);
      return null;
    }
    const known = sorties.get(withoutLedger(event.uid));
    return known === undefined ? "pass over" : knownSortie(event, known);
  };
};

/** Throws "invalid input" for a text that is no calendar, and for gauge readings, which no calendar holds. */
export const readCalendar = (
  text: string,
  forms: CalendarForms,
  target: RowsTarget,
  readAs: string,
  onShare: OnShare,
): RowsTaking => {
  if (target.kind === "readings")
    throw new PlanningError("invalid input", "A calendar holds flights and sorties, not gauge readings.", "kind");
  checkZone(forms.zone);
  const events = readEvents(text, forms);
  const context = planContext(target.entities, target.planCaseId);
  const make =
    target.kind === "flights" ? flightMaker(context, events, target.ledgerId) : sortieMaker(context, target.ledgerId);
  const sorted = sortEvents(events, forms, make);
  const entityKind = target.kind === "flights" ? "flight" : "sortie";
  const questions = questionsOf(sorted, forms);
  const isAsking = questions.length > 0;
  const good = isAsking
    ? []
    : checkPlanRows(entityKind, target.entities, sorted.drafts, (done) => onShare(done / sorted.rows));
  return {
    preview: {
      kind: target.kind,
      format: "calendar",
      readAs: `${readAs}, a calendar of ${plural(events.length, "event", "events")}`,
      sheets: [],
      sheet: null,
      targets: [],
      columns: [],
      dates: { value: null, decision: "guessed", isAsked: false },
      decimals: { value: null, decision: "guessed", isAsked: false },
      separator: null,
      mapping: noMapping,
      calendar: { ...forms, floating: sorted.floating, dated: sorted.wholeDays },
      questions,
      remarks: sorted.remarks,
      // The drafts tell of their faults into this list, those of the check as well.
      ...gather(sorted.rows, good, isAsking ? [] : sorted.faults),
      ...(isAsking ? { faultyRows: 0 } : {}),
    },
    changes: good.flatMap(({ change }) => (change === null ? [] : [change])),
    readings: [],
  };
};
