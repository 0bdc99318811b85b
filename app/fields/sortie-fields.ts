/** The fields of a sortie. */
import type { Sortie } from "../entity/sortie.ts";
import { formatMass } from "../format/mass.ts";
import { type FieldTable, type NameOf, isSame } from "./field.ts";
import { movedWords } from "./moved-words.ts";

const demandSaid = (demand: Sortie["demand"], nameOf: NameOf): readonly (readonly [string, string])[] => {
  if (demand.kind !== "stated") return [["demand", demand.kind === "class" ? "as its class" : "by its profile"]];
  return demand.lines.flatMap(({ propellantId, loadKg, returnKg }) => {
    const name = nameOf("propellant", propellantId).toLowerCase();
    return [[`${name} loaded`, formatMass(loadKg)] as const, [`${name} on return`, formatMass(returnKg)] as const];
  });
};

export type SortieSection = "who" | "when" | "needs" | "status";

const fields = {
  id: null,
  planCaseId: null,
  name: {
    label: "Name",
    words: "name",
    value: { kind: "text", most: 80 },
    held: null,
    form: "who",
    sheet: { id: "name", heading: "Sortie" },
    rows: { id: "name", synonyms: ["sortie", "sortie name", "mission"], isNeeded: true },
    compare: "never",
  },
  campaignId: {
    label: "Campaign",
    words: "campaign",
    value: { kind: "named", of: "campaign", what: "campaign" },
    held: null,
    form: "who",
    sheet: { id: "campaign" },
    rows: { id: "campaign", synonyms: [] },
    compare: "never",
  },
  landerId: {
    label: "Lander",
    words: "lander",
    value: { kind: "named", of: "craft", role: "lander", what: "lander" },
    held: "begun",
    form: "who",
    sheet: { id: "lander" },
    rows: { id: "lander", synonyms: ["craft", "vehicle", "lander serial", "serial"] },
    compare: (before, after, nameOf) =>
      before.landerId === after.landerId ? null : `flown by ${nameOf("craft", after.landerId)}`,
  },
  depotId: {
    label: "Depot",
    words: "depot",
    value: { kind: "named", of: "depot", what: "depot" },
    held: "begun",
    form: "who",
    sheet: { id: "depot", isWide: true },
    rows: { id: "depot", synonyms: ["from", "from depot"] },
    compare: (before, after, nameOf) =>
      before.depotId === after.depotId ? null : `loads at ${nameOf("depot", after.depotId)}`,
  },
  loadAt: {
    label: "Loads and leaves",
    words: "loading",
    value: { kind: "instant" },
    held: "begun",
    form: "when",
    sheet: { id: "load", heading: "Loads" },
    rows: {
      id: "loads",
      name: "Loads and departs",
      synonyms: [
        "loading",
        "load date",
        "loading date",
        "departs",
        "departure",
        "departure date",
        "start",
        "start date",
      ],
      said: "loads",
    },
    compare: (before, after) =>
      before.loadAt === after.loadAt ? null : movedWords("loads", before.loadAt, after.loadAt),
    along: (sortie, loadAt) => ({ returnAt: sortie.returnAt + loadAt - sortie.loadAt }),
  },
  returnAt: {
    label: "Returns",
    words: "return",
    value: { kind: "instant" },
    held: "over",
    form: "when",
    sheet: { id: "return" },
    rows: { id: "returns", synonyms: ["return", "return date", "back", "end", "end date"] },
    // A return that moves along with its loading goes without saying.
    compare: (before, after) =>
      before.returnAt - before.loadAt === after.returnAt - after.loadAt
        ? null
        : movedWords("returns", before.returnAt, after.returnAt),
  },
  demand: {
    label: "Loads and returns",
    words: "demand",
    value: { kind: "own", said: ({ demand }, nameOf) => demandSaid(demand, nameOf) },
    held: "begun",
    form: "needs",
    sheet: null,
    rows: null,
    compare: (before, after) => (isSame(before.demand, after.demand) ? null : "needs another load"),
  },
  status: {
    label: "Status",
    words: "status",
    value: {
      kind: "choice",
      choices: [
        { id: "planned", name: "planned" },
        { id: "departed", name: "departed", note: "by the record", only: "record" },
        { id: "flown", name: "flown", note: "by the record", only: "record" },
        { id: "stood down", name: "stood down", only: "form" },
        { id: "cancelled", name: "cancelled" },
      ],
    },
    held: "begun",
    form: "status",
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
    form: "status",
    sheet: null,
    rows: { id: "note", synonyms: ["notes", "remark", "remarks", "comment", "comments"] },
    compare: "never",
  },
  stoodDownAt: null,
} as const satisfies FieldTable<Sortie, SortieSection>;

/** The lines as they stand, and as a table of all properties: without its line a property is asked for here alone. */
export const sortieFields: FieldTable<Sortie, SortieSection> & typeof fields = fields;
