/** Two sites' documents made of one exported ledger: both read a gauge at one instant, theirs also vented. */
import type { LedgerDocument } from "../../../app/ledger/ledger-view.ts";
import type { JournalEntry, Reading } from "../../../app/ledger/journal.ts";

const DAY_MS = 86_400_000;

interface Sites {
  readonly ours: string;
  readonly theirs: string;
}

/** In their journal the level is stated lower by 60 kg than in ours; 25 kg were vented the day before. */
export const twoSites = (exported: string): Sites => {
  const document = JSON.parse(exported) as LedgerDocument;
  const tank = document.entities.tank.find((row) => row.ownerKind === "depot");
  if (tank === undefined) throw new Error("the demonstration has no depot tank");
  const at = Math.max(...document.entries.map((entry) => entry.at)) + 2 * DAY_MS;
  const bookGrams = document.entries
    .flatMap(({ postings }) => postings)
    .reduce((sum, { account, grams }) => (account.ownerId === tank.id ? sum + grams : sum), 0);
  const entry = (site: string, kind: "reading" | "vent", more: Partial<JournalEntry>, grams: number): JournalEntry => ({
    id: `entry-${site}-${kind}`,
    at,
    kind,
    subjectKey: null,
    reversesId: null,
    note: "",
    author: site,
    recordedAt: at + DAY_MS / 4,
    ...more,
    postings: [
      { account: { kind: "tank", ownerId: tank.id }, propellantId: tank.propellantId, grams: -grams },
      {
        account: { kind: kind === "vent" ? "vented" : "unaccounted", ownerId: tank.ownerId },
        propellantId: tank.propellantId,
        grams,
      },
    ],
  });
  const reading = (site: string, grams: number): Reading => ({
    id: `gauge-${site}`,
    tankId: tank.id,
    at,
    massKg: (bookGrams - grams) / 1000,
    sigmaKg: 15,
    entryId: `entry-${site}-reading`,
    isWithdrawn: false,
    note: "",
  });
  const withRecords = (entries: JournalEntry[], readings: Reading[]): string =>
    JSON.stringify({
      ...document,
      entries: [...document.entries, ...entries],
      readings: [...document.readings, ...readings],
    });
  return {
    ours: withRecords([entry("north", "reading", {}, 40_000)], [reading("north", 40_000)]),
    theirs: withRecords(
      [
        entry("south", "vent", { at: at - DAY_MS, note: "relief valve opened" }, 25_000),
        entry("south", "reading", {}, 75_000),
      ],
      [reading("south", 100_000)],
    ),
  };
};
