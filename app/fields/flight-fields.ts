/** The fields of a flight. */
import type { Flight } from "../entity/flight.ts";
import { formatMass } from "../format/mass.ts";
import { type FieldTable, type NameOf, isSame } from "./field.ts";
import { movedWords } from "./moved-words.ts";

type Loads = Flight["loads"];

const loadWords = (loads: Loads, nameOf: NameOf): string =>
  loads
    .toSorted((a, b) => a.propellantId.localeCompare(b.propellantId))
    .map(({ propellantId, loadedKg }) => `${formatMass(loadedKg)} ${nameOf("propellant", propellantId).toLowerCase()}`)
    .join(", ") || "nothing";

/** The same for the same loads, to the last digit: words are rounded. */
const loadsKey = (loads: Loads): string =>
  JSON.stringify(
    loads
      .filter(({ loadedKg }) => loadedKg > 0)
      .toSorted((a, b) => (a.propellantId < b.propellantId ? -1 : 1))
      .map(({ propellantId, loadedKg }) => [propellantId, loadedKg]),
  );

export type FlightSection = "who" | "when" | "loads" | "policy";

const fields = {
  id: null,
  planCaseId: null,
  name: {
    label: "Name",
    words: "name",
    value: { kind: "text", most: 80 },
    held: null,
    form: "who",
    sheet: { id: "name", heading: "Flight" },
    rows: {
      id: "name",
      synonyms: ["flight", "flight name", "flight number", "flight no", "mission"],
      isNeeded: true,
    },
    compare: "never",
  },
  craftId: {
    label: "Tanker",
    words: "tanker",
    value: { kind: "named", of: "craft", role: "tanker", what: "tanker" },
    held: "begun",
    form: "who",
    sheet: { id: "craft" },
    rows: { id: "craft", synonyms: ["craft", "tanker serial", "vehicle", "hull", "serial"] },
    compare: (before, after, nameOf) =>
      before.craftId === after.craftId ? null : `flown by ${nameOf("craft", after.craftId)}`,
  },
  origin: {
    label: "From",
    words: "origin",
    value: {
      kind: "own",
      said: ({ origin }, nameOf) => [
        ["from", origin.kind === "source" ? nameOf("source", origin.sourceId) : nameOf("depot", origin.depotId)],
      ],
    },
    held: "begun",
    form: "who",
    sheet: { id: "from" },
    rows: { id: "from", synonyms: ["origin", "source", "start place", "launch site", "departs from"] },
    compare: (before, after) => (isSame(before.origin, after.origin) ? null : "has another origin"),
  },
  depotId: {
    label: "To",
    words: "destination",
    value: { kind: "named", of: "depot", what: "depot" },
    held: "begun",
    form: "who",
    sheet: { id: "to", isWide: true },
    rows: { id: "to", synonyms: ["depot", "destination", "arrives at", "target"] },
    compare: (before, after, nameOf) =>
      before.depotId === after.depotId ? null : `goes to ${nameOf("depot", after.depotId)}`,
  },
  departAt: {
    label: "Departs",
    words: "departure",
    value: { kind: "instant" },
    held: "begun",
    form: "when",
    sheet: { id: "depart" },
    rows: {
      id: "departs",
      synonyms: [
        "departure",
        "departure date",
        "departure time",
        "depart",
        "departs on",
        "leaves",
        "launch",
        "launch date",
        "launch time",
        "etd",
        "start",
      ],
    },
    compare: (before, after) =>
      before.departAt === after.departAt ? null : movedWords("departs", before.departAt, after.departAt),
    along: (flight, departAt) => ({ arriveAt: flight.arriveAt + departAt - flight.departAt }),
  },
  arriveAt: {
    label: "Arrives",
    words: "arrival",
    value: { kind: "instant" },
    held: "over",
    form: "when",
    sheet: { id: "arrive" },
    rows: {
      id: "arrives",
      synonyms: [
        "arrival",
        "arrival date",
        "arrival time",
        "arrive",
        "arrives on",
        "docking",
        "docking date",
        "berthing",
        "eta",
      ],
    },
    // An arrival that moves along with its departure goes without saying.
    compare: (before, after) =>
      before.arriveAt - before.departAt === after.arriveAt - after.departAt
        ? null
        : movedWords("arrives", before.arriveAt, after.arriveAt),
  },
  berthDays: {
    label: "At the port",
    words: "time at the port",
    value: { kind: "number", unit: "days", min: 0, max: 2000, decimals: 1 },
    held: null,
    form: "when",
    sheet: { id: "berth" },
    rows: {
      id: "berth",
      name: "Time at the port",
      synonyms: ["berth time", "port time", "port stay", "stay"],
    },
    compare: (before, after) =>
      before.berthDays === after.berthDays ? null : `stays ${after.berthDays} days instead of ${before.berthDays}`,
  },
  loads: {
    label: "Loaded at departure",
    words: "loads",
    value: {
      kind: "own",
      said: ({ loads }, nameOf) =>
        loads.map(({ propellantId, loadedKg }) => [
          `${nameOf("propellant", propellantId).toLowerCase()} loaded`,
          formatMass(loadedKg),
        ]),
    },
    held: "begun",
    form: "loads",
    sheet: null,
    rows: null,
    compare: (before, after, nameOf) =>
      loadsKey(before.loads) === loadsKey(after.loads)
        ? null
        : `loads ${loadWords(after.loads, nameOf)} instead of ${loadWords(before.loads, nameOf)}`,
  },
  overflow: {
    label: "If it does not fit",
    words: "overflow",
    value: {
      kind: "choice",
      choices: [
        { id: "keep aboard", name: "keep aboard" },
        { id: "vent", name: "vent" },
      ],
    },
    held: null,
    form: "policy",
    sheet: null,
    rows: { id: "overflow", name: "Overflow", synonyms: ["on overflow"] },
    compare: (before, after) => {
      if (before.overflow === after.overflow) return null;
      return after.overflow === "vent" ? "vents what does not fit" : "keeps aboard what does not fit";
    },
  },
  status: {
    label: "Status",
    words: "status",
    value: {
      kind: "choice",
      choices: [
        { id: "planned", name: "planned" },
        { id: "firm", name: "firm", note: "the scheduler leaves it" },
        { id: "departed", name: "departed", note: "by the record", only: "record" },
        { id: "arrived", name: "arrived", note: "by the record", only: "record" },
        { id: "lost", name: "lost", note: "by the record", only: "record" },
        { id: "cancelled", name: "cancelled" },
      ],
    },
    held: "begun",
    form: "policy",
    sheet: { id: "status" },
    rows: { id: "status", synonyms: ["state"] },
    compare: (before, after) =>
      before.status === after.status ? null : `is ${after.status} instead of ${before.status}`,
  },
  key: {
    label: "Key",
    words: "key",
    value: { kind: "key" },
    held: null,
    form: null,
    sheet: null,
    rows: { id: "key", synonyms: ["id", "identifier", "code"] },
    compare: "never",
  },
  note: {
    label: "Note",
    words: "note",
    value: { kind: "note", most: 2000 },
    held: null,
    form: "policy",
    sheet: null,
    rows: { id: "note", synonyms: ["notes", "remark", "remarks", "comment", "comments"] },
    compare: "never",
  },
  lostAt: null,
} as const satisfies FieldTable<Flight, FlightSection>;

/** The lines as they stand, and as a table of all properties: without its line a property is asked for here alone. */
export const flightFields: FieldTable<Flight, FlightSection> & typeof fields = fields;
