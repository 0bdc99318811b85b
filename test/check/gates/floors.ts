/**
 * The floors of `app`: no room imports from a room above or beside it, types included, and no files anywhere import each
 * other in a circle. What a lower room needs of a higher one belongs below, or is handed in.
 */
import { posix } from "node:path";
import { appFloors, floorDrawing } from "../floors.ts";
import type { Gate, Look } from "../gate.ts";
import { type SourceFile, fixtureFiles, isScript, projectFiles } from "../source-files.ts";
import { reachedModules } from "../syntax.ts";

const floorOf = new Map(appFloors.flatMap((rooms, floor) => rooms.map((room) => [room, floor] as const)));

const roomOf = (path: string): string | null => {
  const [folder, room, ...rest] = path.split("/");
  return folder === "app" && room !== undefined && rest.length > 0 ? room : null;
};

/** Why a file of one room may not import from another; null: it may. */
const againstFloor = (from: string, to: string): string | null => {
  if (from === to) return null;
  const [here, there] = [floorOf.get(from), floorOf.get(to)];
  if (here === undefined) return `app/${from} stands on no floor`;
  if (there === undefined) return `app/${to} stands on no floor`;
  if (there > here) return `app/${from} imports from app/${to}, which stands above it`;
  return there === here ? `app/${from} imports from app/${to}, which stands beside it` : null;
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

const lookAt = (files: readonly SourceFile[]): Look => {
  const scripts = files.filter((file) => isScript(file.path) && /^(app|db|main|renderer)\//.test(file.path));
  const arrows = scripts.flatMap(arrowsOf);
  const between = arrows.flatMap(({ from, to, line }) => {
    const [here, there] = [roomOf(from), roomOf(to)];
    const why = here === null || there === null ? null : againstFloor(here, there);
    return why === null ? [] : [`${from}:${line}: ${why} (${to})`];
  });
  const circles = circlesOf(arrows).map((circle) => `${circle[0]}: files import each other: ${circle.join(", ")}`);
  const guide = files.find((file) => file.path === "DEVELOPERS.md");
  const drawn =
    guide?.text.includes(floorDrawing()) === true
      ? []
      : [`DEVELOPERS.md does not draw the floors as they are:\n${floorDrawing()}`];
  return { files: scripts.length, faults: [...between, ...circles, ...drawn] };
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
        /DEVELOPERS\.md does not draw the floors/,
        /app\/ledger\/one\.ts: files import each other: app\/ledger\/one\.ts, app\/ledger\/two\.ts/,
      ],
    },
  ],
};
