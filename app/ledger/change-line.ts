/** One line that says what an edit did to a row: "flight Packhorse 7: departs 2031-02-20 → 2031-02-24". */
import type { EntityKind } from "../entity/entities.ts";
import { formatDate, formatMinute } from "../format/time.ts";

/** Kinds as a person says them. */
export const kindWords: { readonly [K in EntityKind | "reading" | "ledger"]: string } = {
  propellant: "propellant",
  depot: "depot",
  source: "source",
  craftClass: "craft class",
  profile: "sortie profile",
  craft: "craft",
  tank: "tank",
  planCase: "plan case",
  lossPeriod: "loss period",
  campaign: "campaign",
  flight: "flight",
  sortie: "sortie",
  riskInput: "risk input",
  reading: "reading",
  ledger: "ledger",
};

/** Properties whose name alone does not read well. */
const propertyWords: { readonly [name: string]: string } = {
  departAt: "departs",
  arriveAt: "arrives",
  loadAt: "loads",
  returnAt: "returns",
  asOfAt: "as of",
  lostAt: "lost",
  stoodDownAt: "stood down",
  fromAt: "from",
  untilAt: "until",
  kPerDay: "k",
  cKgPerDay: "c",
  isWithdrawn: "withdrawn",
  windowReferenceAt: "window reference",
  windowPeriodDays: "window period",
  windowList: "window list",
  horizonAt: "horizon",
};

/** "maximumFillKg" → "maximum fill", with the unit said after the value. */
const UNITS: readonly (readonly [RegExp, string])[] = [
  [/KgPerM3$/, " kg/m³"],
  [/KgPerDay$/, " kg/day"],
  [/PerDay$/, " /day"],
  [/Percent$/, " %"],
  [/Days$/, " days"],
  [/Kg$/, " kg"],
  [/M3$/, " m³"],
];

const split = (property: string): { readonly words: string; readonly unit: string } => {
  const found = UNITS.find(([ending]) => ending.test(property));
  const stem = found === undefined ? property : property.replace(found[0], "");
  const words = stem.replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`).replace(/ (id|ids)$/, "");
  return { words: propertyWords[property] ?? words, unit: found?.[1] ?? "" };
};

const DAY_MS = 86_400_000;

const valueWords = (property: string, value: unknown, nameOf: (id: string) => string, unit: string): string => {
  if (value === null || value === undefined) return "none";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number" && property.endsWith("At"))
    return value % DAY_MS === 0 ? formatDate(value) : formatMinute(value);
  if (typeof value === "number") return `${value}${unit}`;
  if (typeof value === "string") return property.endsWith("Id") ? nameOf(value) : `“${value.slice(0, 60)}”`;
  return JSON.stringify(value).slice(0, 120);
};

type Row = { readonly [property: string]: unknown };

const isSame = (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b);

/** What a risk input is about. */
const quantityOf = (uncertainty: unknown): unknown =>
  typeof uncertainty === "object" && uncertainty !== null && "quantity" in uncertainty
    ? uncertainty.quantity
    : undefined;

const titleOf = (row: Row): string => {
  const title = row["name"] ?? row["reason"] ?? quantityOf(row["uncertainty"]) ?? row["id"];
  return typeof title === "string" ? title : "";
};

/** `before` null: the row is new; `after` null: it was removed. `nameOf` gives the name of a row by its id. */
export const changeLine = (
  kind: keyof typeof kindWords,
  before: Row | null,
  after: Row | null,
  nameOf: (id: string) => string,
): string => {
  const subject = `${kindWords[kind]} ${titleOf(after ?? before ?? {})}`.trim();
  if (before === null) return `${subject}: new`;
  if (after === null) return `${subject}: removed`;
  const parts = Object.keys(after)
    .filter((property) => !isSame(before[property], after[property]))
    .map((property) => {
      const { words, unit } = split(property);
      const say = (value: unknown) => valueWords(property, value, nameOf, unit);
      return `${words} ${say(before[property])} → ${say(after[property])}`;
    });
  return `${subject}: ${parts.join(", ")}`;
};
