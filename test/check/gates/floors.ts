/**
 * The floors of `app` and `renderer`: no room imports from a room above or beside it, types included; each room's README
 * names what the room imports, as it is; and no files anywhere import each other in a circle. What a lower room needs of a
 * higher one belongs below, or is handed in.
 */
import { posix } from "node:path";
import { floorDrawing, floorsOf } from "../floors.ts";
import type { Gate, Look } from "../gate.ts";
import { type SourceFile, fixtureFiles, isScript, projectFiles } from "../source-files.ts";
import { reachedModules } from "../syntax.ts";

/** "app/ledger" → its floor. */
const floorOf = new Map<string, number>(
  Object.entries(floorsOf).flatMap(([folder, floors]) =>
    floors.flatMap((rooms, floor) => rooms.map((room) => [`${folder}/${room}`, floor] as const)),
  ),
);

/** "app/ledger" for a file in that room, "renderer/views.ts" for a file beside the rooms; null: not on floors. */
const roomOf = (path: string): string | null => {
  const [folder, room] = path.split("/");
  return folder === undefined || room === undefined || floorsOf[folder] === undefined ? null : `${folder}/${room}`;
};

/** Why a file of one room may not import from another; null: it may. */
const againstFloor = (from: string, to: string): string | null => {
  if (from === to || from.split("/")[0] !== to.split("/")[0]) return null;
  const [here, there] = [floorOf.get(from), floorOf.get(to)];
  if (here === undefined) return `${from} stands on no floor`;
  if (there === undefined) return `${to} stands on no floor`;
  if (there > here) return `${from} imports from ${to}, which stands above it`;
  return there === here ? `${from} imports from ${to}, which stands beside it` : null;
};

interface Arrow {
  readonly from: string;
  readonly to: string;
  readonly line: number;
}

const arrowsOf = (file: SourceFile): readonly Arrow[] =>
  reachedModules(file)
    .filter(({ specifier }) => specifier.startsWith("."))
    .map(({ specifier, line }) => ({
      from: file.path,
      to: posix.join(posix.dirname(file.path), specifier),
      line,
    }));

/** Groups of files that reach each other in a circle (Tarjan 1972, strongly connected components), by names. */
const circlesOf = (arrows: readonly Arrow[]): readonly (readonly string[])[] => {
  const reached = Map.groupBy(arrows, ({ from }) => from);
  const order = new Map<string, number>();
  const lowest = new Map<string, number>();
  const open: string[] = [];
  const circles: string[][] = [];
  const visit = (path: string): void => {
    order.set(path, order.size);
    let low = order.get(path) ?? 0;
    open.push(path);
    for (const { to } of reached.get(path) ?? []) {
      if (!order.has(to)) visit(to);
      if (open.includes(to)) low = Math.min(low, lowest.get(to) ?? order.get(to) ?? low);
    }
    lowest.set(path, low);
    if (low !== order.get(path)) return;
    const circle = open.splice(open.indexOf(path));
    if (circle.length > 1) circles.push(circle.toSorted());
  };
  for (const path of reached.keys()) if (!order.has(path)) visit(path);
  return circles;
};

/** What a room imports, as its README has to say it: rooms of its own folder by name, `app` as a whole from elsewhere. */
const importsOf = (room: string, arrows: readonly Arrow[]): string => {
  const folder = room.split("/")[0];
  const names = arrows.flatMap(({ from, to }) => {
    const there = roomOf(to);
    if (roomOf(from) !== room || there === null || there === room) return [];
    const [otherFolder, name] = there.split("/");
    return [otherFolder === folder ? (name ?? "") : (otherFolder ?? "")];
  });
  return names.length === 0 ? "Imports: nothing." : `Imports: ${[...new Set(names)].toSorted().join(", ")}.`;
};

const againstReadmes = (files: readonly SourceFile[], arrows: readonly Arrow[]): readonly string[] => {
  const rooms = new Set(files.flatMap(({ path }) => (path.split("/").length > 2 ? (roomOf(path) ?? []) : [])));
  return [...rooms].toSorted().flatMap((room) => {
    const readme = files.find(({ path }) => path === `${room}/README.md`);
    const line = importsOf(room, arrows);
    if (readme === undefined) return [`${room}/README.md: there is none; among its lines: ${line}`];
    return readme.text.split("\n").includes(line) ? [] : [`${room}/README.md: has no line "${line}"`];
  });
};

const againstDrawings = (files: readonly SourceFile[]): readonly string[] => {
  const guide = files.find((file) => file.path === "DEVELOPERS.md");
  return Object.entries(floorsOf).flatMap(([folder, floors]) =>
    guide?.text.includes(floorDrawing(floors)) === true
      ? []
      : [`DEVELOPERS.md does not draw the floors of ${folder} as they are:\n${floorDrawing(floors)}`],
  );
};

const lookAt = (files: readonly SourceFile[]): Look => {
  const scripts = files.filter((file) => isScript(file.path) && /^(app|db|main|renderer)\//.test(file.path));
  const arrows = scripts.flatMap(arrowsOf);
  const between = arrows.flatMap(({ from, to, line }) => {
    const [here, there] = [roomOf(from), roomOf(to)];
    const why = here === null || there === null ? null : againstFloor(here, there);
    return why === null ? [] : [`${from}:${line}: ${why} (${to})`];
  });
  const circles = circlesOf(arrows).map((circle) => `${circle[0]}: files import each other: ${circle.join(", ")}`);
  return {
    files: scripts.length,
    faults: [...between, ...circles, ...againstReadmes(files, arrows), ...againstDrawings(files)],
  };
};

export const floorGate: Gate = {
  name: "floors",
  fix: "move what both need to a lower floor, or hand it in (test/check/floors.ts has the order)",
  look: async () => lookAt(projectFiles()),
  bites: [
    {
      name: "floors",
      look: async () => lookAt(fixtureFiles("floors")),
      mustFind: [
        /app\/ground\/wrong\.ts:\d+: app\/ground imports from app\/ledger, which stands above it/,
        /app\/losses\/wrong\.ts:\d+: app\/losses imports from app\/plant, which stands beside it/,
        /app\/attic\/wrong\.ts:\d+: app\/attic stands on no floor/,
        /renderer\/supply\/wrong\.ts:\d+: renderer\/supply imports from renderer\/timeline, which stands beside it/,
        /renderer\/state\/wrong\.ts:\d+: renderer\/state imports from renderer\/views\.ts, which stands above it/,
        /app\/losses\/README\.md: has no line "Imports: plant\."/,
        /app\/attic\/README\.md: there is none; among its lines: Imports: ground\./,
        /DEVELOPERS\.md does not draw the floors of app/,
        /DEVELOPERS\.md does not draw the floors of renderer/,
        /app\/ledger\/one\.ts: files import each other: app\/ledger\/one\.ts, app\/ledger\/two\.ts/,
      ],
    },
  ],
};
