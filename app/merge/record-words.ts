/** News as a person reads it: what was recorded, when, by whom, with which masses. */
import { missingCase } from "../ground/missing-case.ts";
import type { EntryKind, Reading } from "../ledger/journal.ts";
import { toKg } from "../ledger/journal.ts";
import type { News } from "./compare.ts";
import type { MassLine, RecordView } from "./merge-view.ts";
import type { Names } from "./names.ts";
import { type Side, type SideEntry, statesLevel, sumsOf, tanksOf } from "./side.ts";

const titles: Readonly<Record<EntryKind, string>> = {
  opening: "Opening level",
  departure: "Departure",
  arrival: "Arrival",
  "loss of flight": "Loss",
  loading: "Loading",
  return: "Return",
  transfer: "Transfer",
  vent: "Vent",
  reading: "Gauge reading",
  closing: "Boil-off booked",
  reversal: "Reversal",
};

const titleOf = ({ entry }: SideEntry, names: Names): string => {
  if (entry.subjectKey !== null) return `${titles[entry.kind]} of ${names.subject(entry.subjectKey)}`;
  const tanks = tanksOf(entry).map(names.tank);
  return tanks.length === 0 ? titles[entry.kind] : `${titles[entry.kind]}: ${tanks.join(", ")}`;
};

/** A level at the end of its instant; 0 for a tank that its side has no movement of. */
const levelKg = (side: Side, tankId: string, at: number): number =>
  toKg(side.movements(tankId).reduce((sum, m) => (m.at <= at ? sum + m.grams : sum), 0));

/** An entry that states a level by the level, then what was booked to it; another by what it moves. */
const massesOf = (side: Side, { entry }: SideEntry, names: Names): MassLine[] => {
  const isLevel = statesLevel(entry);
  const tankOfPropellant = (tankId: string) =>
    entry.postings.find(({ account }) => account.kind === "tank" && account.ownerId === tankId)?.propellantId ?? null;
  const levels = isLevel
    ? tanksOf(entry).map((tankId) => ({
        label: `level of ${names.tank(tankId)}`,
        propellantId: tankOfPropellant(tankId),
        massKg: levelKg(side, tankId, entry.at),
      }))
    : [];
  const moved = sumsOf(entry).flatMap(([key, grams]) => {
    const posting = entry.postings.find(
      ({ account, propellantId }) => `${account.kind}/${account.ownerId}/${propellantId}` === key,
    );
    if (posting === undefined || (isLevel && posting.account.kind === "tank")) return [];
    const label = names.account(posting.account, posting.propellantId);
    return [{ label, propellantId: posting.propellantId, massKg: toKg(grams) }];
  });
  return [...levels, ...moved];
};

const gaugeLines = (reading: Reading, names: Names, propellantOf: (tankId: string) => string | null): MassLine[] => {
  const propellantId = propellantOf(reading.tankId);
  return [
    { label: `gauge of ${names.tank(reading.tankId)}`, propellantId, massKg: reading.massKg },
    { label: `its uncertainty (1 σ)`, propellantId, massKg: reading.sigmaKg },
  ];
};

const propellantIn = (side: Side) => (tankId: string) =>
  side.document.entities.tank.find((row) => row.id === tankId)?.propellantId ?? null;

/** One piece of news. `holder`: the side on which its record is in force; for what was taken back, the other one. */
export const recordView = (news: News, holder: Side, names: Names): RecordView => {
  const isTakenBack = news.did === "take back" || news.did === "withdraw";
  switch (news.did) {
    case "write":
    case "take back": {
      const { entry, readings } = news.record;
      const { at, author, recordedAt, note } = entry;
      const gauges = readings.flatMap((row) => gaugeLines(row, names, propellantIn(holder)));
      return {
        title: titleOf(news.record, names),
        at,
        author,
        recordedAt,
        note,
        isTakenBack,
        masses: [...massesOf(holder, news.record, names), ...gauges],
      };
    }
    case "read":
    case "withdraw": {
      const { tankId, at, note } = news.reading;
      return {
        title: `Gauge reading: ${names.tank(tankId)}`,
        at,
        author: null,
        recordedAt: null,
        note,
        isTakenBack: isTakenBack || news.reading.isWithdrawn,
        masses: gaugeLines(news.reading, names, propellantIn(holder)),
      };
    }
    case "status": {
      const { row, key } = news.status;
      const at = "departAt" in row ? (row.status === "arrived" ? row.arriveAt : row.departAt) : row.loadAt;
      const title = `${names.subject(key)}: ${row.status}, nothing of the books moved`;
      return { title, at, author: null, recordedAt: null, note: "", isTakenBack: false, masses: [] };
    }
    default:
      return missingCase(news);
  }
};
