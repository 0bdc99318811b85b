/**
 * Where the copies of ledgers lie: in the program's data folder, a folder for each ledger, for its owner alone. Copies of
 * days are thinned out: the last seven, and of what is older the first of each month. What a person named stays.
 */
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, realpathSync, rmSync, statSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { PlanningError } from "../../app/ground/failure.ts";
import type { KeptCopy } from "../../app/copies/kept-copy.ts";
import { LEDGER_ENDING, ledgerFileName } from "../page/ledger-name.ts";

const DAYS_KEPT = 7;

const DAY_NAME = /^day (\d{4}-\d{2}-\d{2})\.coldstock$/;
const POINT_NAME = /^point (\d{4}-\d{2}-\d{2}) (\d{2})(\d{2})(\d{2}) (.+)\.coldstock$/;

/** Behind links; of a file that has gone, behind those of its folder. */
const placeOf = (path: string): string => {
  try {
    return realpathSync(path);
  } catch {
    const whole = resolve(path);
    const folder = dirname(whole);
    return existsSync(folder) ? join(realpathSync(folder), basename(whole)) : whole;
  }
};

/** The folder for copies of the ledger at `path`: by its whole path, since two ledgers may have one name. */
export const copyFolder = (dataFolder: string, path: string): string => {
  const place = placeOf(path);
  const mark = createHash("sha256").update(place).digest("hex").slice(0, 10);
  const name = ledgerFileName(basename(place)).slice(0, -LEDGER_ENDING.length);
  return join(dataFolder, "copies", `${name} ${mark}`);
};

export const makeCopyFolder = (folder: string): void => void mkdirSync(folder, { recursive: true, mode: 0o700 });

const copyOf = (folder: string, id: string): KeptCopy | null => {
  const stats = statSync(join(folder, id), { throwIfNoEntry: false });
  if (stats?.isFile() !== true) return null;
  const rest = { id, at: Math.round(stats.mtimeMs), bytes: stats.size };
  const day = DAY_NAME.exec(id)?.[1];
  if (day !== undefined) return { kind: "day", name: day, ...rest };
  const name = POINT_NAME.exec(id)?.[5];
  return name === undefined ? null : { kind: "point", name, ...rest };
};

/** The copies in a folder, the latest first; none where there is no folder. */
export const copiesIn = (folder: string): readonly KeptCopy[] => {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .flatMap((id) => copyOf(folder, id) ?? [])
    .toSorted((a, b) => b.at - a.at || (a.id < b.id ? 1 : -1));
};

const dayOf = (at: number): string => new Date(at).toISOString().slice(0, 10);

/** The path of the copy of the day of an instant (UTC). */
export const dayPath = (folder: string, at: number): string => join(folder, `day ${dayOf(at)}${LEDGER_ENDING}`);

/** A path for a state that is named. Letters and digits of any script, spaces and a few marks are kept of the name. */
export const pointPath = (folder: string, at: number, name: string): string => {
  const time = new Date(at).toISOString().slice(11, 19).replaceAll(":", "");
  const path = join(folder, `point ${dayOf(at)} ${time} ${ledgerFileName(name)}`);
  if (existsSync(path))
    throw new PlanningError(
      "refused",
      "A state of that name was kept in this very second. Choose another name.",
      "name",
    );
  return path;
};

/** Names of the days' copies that are too many. Pure: by their dates alone. */
export const surplusDays = (days: readonly string[]): readonly string[] => {
  const sorted = days.toSorted();
  const older = sorted.slice(0, Math.max(0, sorted.length - DAYS_KEPT));
  return older.filter((day, index) => older[index - 1]?.slice(0, 7) === day.slice(0, 7));
};

/** Takes the days' copies away that are too many. */
export const thinOut = (folder: string): void => {
  const days = copiesIn(folder).filter(({ kind }) => kind === "day");
  for (const day of surplusDays(days.map(({ name }) => name)))
    rmSync(join(folder, `day ${day}${LEDGER_ENDING}`), { force: true });
};
