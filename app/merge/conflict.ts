/** Where both sides did something about the same thing. What belongs together is decided together. */
import { missingCase } from "../ground/missing-case.ts";
import { type Comparison, type News, isOfFlight, isOfSortie } from "./compare.ts";
import { type Side, type SideEntry, statesLevel, tanksOf } from "./side.ts";

export interface Conflict {
  /** Made of what is in it: the same conflict has the same id when it is looked at again. */
  readonly id: string;
  readonly ours: readonly News[];
  readonly theirs: readonly News[];
  /** Whether both can stand beside each other. */
  readonly canKeepBoth: boolean;
}

/** What a piece of news is about; two about one thing are decided together. */
interface Subject {
  readonly key: string;
  /** Both may stand. */
  readonly isSoft: boolean;
}

const soft = (key: string): Subject => ({ key, isSoft: true });
const hard = (key: string): Subject => ({ key, isSoft: false });

const entrySubjects = ({ entry }: SideEntry): Subject[] => {
  const { kind, at, subjectKey, id } = entry;
  const same = hard(`entry/${id}`);
  const tankIds = tanksOf(entry);
  if (isOfFlight(entry) && subjectKey !== null) return [same, hard(`flight/${subjectKey}`)];
  if (isOfSortie(entry) && subjectKey !== null) return [same, hard(`sortie/${subjectKey}`)];
  if (kind === "opening") return [same, ...tankIds.map((tankId) => hard(`opening/${tankId}`))];
  // Two gauges may be read at one instant; two closings cannot both be the level.
  if (statesLevel(entry))
    return [same, ...tankIds.map((tankId) => ({ key: `level/${tankId}/${at}`, isSoft: kind === "reading" }))];
  return [same, ...tankIds.map((tankId) => soft(`${kind}/${tankId}/${at}`))];
};

const subjectsOf = (news: News): Subject[] => {
  switch (news.did) {
    case "write":
    case "take back": {
      const subjects = entrySubjects(news.record);
      const gauges = news.record.readings.map((row) => soft(`gauge/${row.tankId}/${row.at}`));
      const all = [...subjects, ...gauges];
      return news.did === "write" ? all : all.map(({ key }) => hard(key));
    }
    case "read":
      return [hard(`reading/${news.reading.id}`), soft(`gauge/${news.reading.tankId}/${news.reading.at}`)];
    case "withdraw":
      return [hard(`reading/${news.reading.id}`), hard(`gauge/${news.reading.tankId}/${news.reading.at}`)];
    case "status":
      return [hard(`${news.status.kind}/${news.status.key}`)];
    default:
      return missingCase(news);
  }
};

/** What a closing books: from the level stated before it on its own side to its instant, tank by tank. */
interface Span {
  readonly tankId: string;
  readonly fromAt: number;
  readonly untilAt: number;
}

const spansOf = (side: Side, news: News): Span[] => {
  if (news.did !== "write" || news.record.entry.kind !== "closing") return [];
  const untilAt = news.record.entry.at;
  return tanksOf(news.record.entry).map((tankId) => {
    const before = side.movements(tankId).findLast((m) => m.at < untilAt && statesLevel(m.record.entry));
    return { tankId, fromAt: before?.at ?? Number.NEGATIVE_INFINITY, untilAt };
  });
};

const overlap = (a: readonly Span[], b: readonly Span[]): boolean =>
  a.some((one) => b.some((two) => one.tankId === two.tankId && one.fromAt < two.untilAt && two.fromAt < one.untilAt));

interface Piece {
  readonly isOurs: boolean;
  readonly news: News;
  readonly subjects: readonly Subject[];
  readonly spans: readonly Span[];
}

/** Groups of places that are joined, directly or through others. */
const joinedGroups = (count: number, joins: readonly (readonly [number, number])[]): ReadonlyMap<number, number[]> => {
  const parent = Array.from({ length: count }, (_, i) => i);
  const rootOf = (index: number): number => {
    let root = index;
    while (parent[root] !== root) root = parent[root] ?? root;
    parent[index] = root;
    return root;
  };
  for (const [a, b] of joins) parent[rootOf(a)] = rootOf(b);
  return Map.groupBy(
    parent.map((_, i) => i),
    rootOf,
  );
};

const subjectJoins = (pieces: readonly Piece[]) => {
  const byKey = new Map<string, number[]>();
  pieces.forEach(({ subjects }, index) => {
    for (const { key } of subjects) byKey.set(key, [...(byKey.get(key) ?? []), index]);
  });
  // What one side alone speaks of is joined too: a flight's departure and arrival stand or fall together.
  return [...byKey.values()].flatMap((places) => places.slice(1).map((place) => [places[0] ?? place, place] as const));
};

const spanJoins = (pieces: readonly Piece[]) => {
  const closings = pieces.flatMap((piece, index) => (piece.spans.length === 0 ? [] : [{ piece, place: index }]));
  return closings.flatMap((a) =>
    closings
      .filter((b) => a.piece.isOurs && !b.piece.isOurs && overlap(a.piece.spans, b.piece.spans))
      .map((b) => [a.place, b.place] as const),
  );
};

const nameOf = (news: News): string => {
  switch (news.did) {
    case "write":
    case "take back":
      return `${news.did}:${news.record.entry.id}`;
    case "read":
    case "withdraw":
      return `${news.did}:${news.reading.id}`;
    case "status":
      return `status:${news.status.kind}/${news.status.key}/${news.status.row.status}`;
    default:
      return missingCase(news);
  }
};

/** Both may stand where every subject that both sides speak of is soft. */
const canKeepBoth = (pieces: readonly Piece[]): boolean => {
  const keys = (isOurs: boolean) =>
    new Set(
      pieces.filter((piece) => piece.isOurs === isOurs).flatMap(({ subjects }) => subjects.map(({ key }) => key)),
    );
  const ours = keys(true);
  const theirs = keys(false);
  return pieces.every(({ subjects }) =>
    subjects.every(({ key, isSoft }) => isSoft || !(ours.has(key) && theirs.has(key))),
  );
};

/** A stable text of modest length for a long one (FNV-1a, 64 bits in two halves). */
const digest = (text: string): string => {
  let low = 0x811c9dc5;
  let high = 0x1000193;
  for (let i = 0; i < text.length; i += 1) {
    low = Math.imul(low ^ text.charCodeAt(i), 0x01000193) >>> 0;
    high = Math.imul(high ^ text.charCodeAt(i) ^ (low >>> 16), 0x01000193) >>> 0;
  }
  return `${low.toString(16).padStart(8, "0")}${high.toString(16).padStart(8, "0")}`;
};

export interface Sorted {
  readonly conflicts: readonly Conflict[];
  /** News of theirs that nothing of ours speaks against. */
  readonly incoming: readonly News[];
}

const instantOf = (news: News): number => {
  switch (news.did) {
    case "write":
    case "take back":
      return news.record.entry.at;
    case "read":
    case "withdraw":
      return news.reading.at;
    case "status":
      return "departAt" in news.status.row ? news.status.row.departAt : news.status.row.loadAt;
    default:
      return missingCase(news);
  }
};

const inTime = (news: readonly News[]): readonly News[] => news.toSorted((a, b) => instantOf(a) - instantOf(b));

/** Parts the news into what comes in as it is and what must be decided, in order of time. */
export const sortNews = ({ ours, theirs, ourNews, theirNews }: Comparison): Sorted => {
  const pieceOf = (side: Side, isOurs: boolean) => (news: News) => ({
    isOurs,
    news,
    subjects: subjectsOf(news),
    spans: spansOf(side, news),
  });
  const pieces: Piece[] = [...ourNews.map(pieceOf(ours, true)), ...theirNews.map(pieceOf(theirs, false))];
  const groups = joinedGroups(pieces.length, [...subjectJoins(pieces), ...spanJoins(pieces)]);
  const conflicts: Conflict[] = [];
  const incoming: News[] = [];
  for (const places of groups.values()) {
    const group = places.flatMap((index) => pieces[index] ?? []);
    const [here, there] = [true, false].map((isOurs) =>
      inTime(group.filter((piece) => piece.isOurs === isOurs).map(({ news }) => news)),
    );
    if (there === undefined || here === undefined || there.length === 0) continue;
    if (here.length === 0) incoming.push(...there);
    else {
      const names = [...here.map(nameOf).toSorted(), "|", ...there.map(nameOf).toSorted()];
      conflicts.push({ id: digest(names.join(" ")), ours: here, theirs: there, canKeepBoth: canKeepBoth(group) });
    }
  }
  const first = ({ ours: a, theirs: b }: Conflict): number => Math.min(...[...a, ...b].map(instantOf));
  return { conflicts: conflicts.toSorted((a, b) => first(a) - first(b)), incoming: inTime(incoming) };
};
