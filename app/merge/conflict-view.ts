/** A conflict as it is shown: both sides, their masses beside each other, and what may be chosen. */
import { missingCase } from "../ground/missing-case.ts";
import { formatMinute } from "../format/time.ts";
import type { Comparison, News } from "./compare.ts";
import type { Conflict } from "./conflict.ts";
import type { ComparedMass, ConflictView, MassLine, RecordView } from "./merge-view.ts";
import type { Names } from "./names.ts";
import { recordView } from "./record-words.ts";
import { tanksOf } from "./side.ts";

const gathered = (views: readonly RecordView[]): ReadonlyMap<string, MassLine> => {
  const lines = new Map<string, MassLine>();
  for (const view of views)
    for (const mass of view.masses) {
      const label = views.length > 1 ? `${view.title}: ${mass.label}` : mass.label;
      if (!view.isTakenBack) lines.set(label, { ...mass, label });
    }
  return lines;
};

const compared = (ours: readonly RecordView[], theirs: readonly RecordView[]): ComparedMass[] => {
  const here = gathered(ours);
  const there = gathered(theirs);
  return [...new Set([...here.keys(), ...there.keys()])].map((label) => ({
    label,
    propellantId: (here.get(label) ?? there.get(label))?.propellantId ?? null,
    oursKg: here.get(label)?.massKg ?? null,
    theirsKg: there.get(label)?.massKg ?? null,
  }));
};

const subjectOf = (news: News, names: Names): string => {
  switch (news.did) {
    case "write":
    case "take back": {
      const { subjectKey, at } = news.record.entry;
      if (subjectKey !== null) return names.subject(subjectKey);
      return `${tanksOf(news.record.entry).map(names.tank).join(", ")}, ${formatMinute(at)}`;
    }
    case "read":
    case "withdraw":
      return `${names.tank(news.reading.tankId)}, ${formatMinute(news.reading.at)}`;
    case "status":
      return names.subject(news.status.key);
    default:
      return missingCase(news);
  }
};

const isClosing = (news: News): boolean => news.did === "write" && news.record.entry.kind === "closing";

const wordsOf = ({ ours, theirs }: Conflict): string => {
  const isGone = [ours, theirs].map((side) => side.some(({ did }) => did === "take back" || did === "withdraw"));
  if (isGone[0] === true && isGone[1] !== true) return "It was reversed here, and went on there.";
  if (isGone[1] === true && isGone[0] !== true) return "It was reversed there, and went on here.";
  if ([...ours, ...theirs].every(isClosing)) return "Boil-off was booked at both sites over spans that overlap.";
  if ([...ours, ...theirs].every(({ did }) => did === "read"))
    return "The gauge was read at both sites at one instant.";
  return "Both sites recorded this differently.";
};

const bothWordsOf = ({ ours, theirs, canKeepBoth }: Conflict): string | null => {
  if (!canKeepBoth) return null;
  if ([...ours, ...theirs].every(isClosing)) return "Both levels stand; what was lost between them is booked once.";
  const isLevel = (news: News): boolean => news.did === "write" && news.record.entry.kind === "reading";
  if (ours.some(isLevel) && theirs.some(isLevel)) return "Ours stays in the books; their reading is kept beside them.";
  if ([...ours, ...theirs].some(({ did }) => did === "read")) return "Both readings are kept.";
  return "Both happened: both are in the books.";
};

export const conflictView = (conflict: Conflict, { ours, theirs }: Comparison, names: Names): ConflictView => {
  const view = (news: News, isOurs: boolean): RecordView => {
    // What one side took back is still in force on the other, and is read there.
    const holder = (news.did === "take back") === isOurs ? theirs : ours;
    return recordView(news, holder, names);
  };
  const here = conflict.ours.map((news) => view(news, true));
  const there = conflict.theirs.map((news) => view(news, false));
  const [first] = [...conflict.ours, ...conflict.theirs];
  return {
    id: conflict.id,
    about: first === undefined ? "" : subjectOf(first, names),
    words: wordsOf(conflict),
    ours: here,
    theirs: there,
    masses: compared(here, there),
    bothWords: bothWordsOf(conflict),
  };
};
