/**
 * An orbit ephemeris message (OEM) in keyword = value text, by CCSDS 502.0-B, "Orbit Data Messages": header, and segments
 * of metadata and states. Covariances are passed over, comments too. What cannot be used is refused by line and name.
 */
import { PlanningError } from "../ground/failure.ts";
import { taiOfEpoch, type TimeSystem, timeSystems } from "./time-system.ts";

/** Positions in km and velocities in km/s from the body's centre at rising instants, TAI ms. */
export interface StateTable {
  readonly taiMs: Float64Array;
  /** x, y, z, ẋ, ẏ, ż of each state, one after the other. */
  readonly states: Float64Array;
}

export interface OemSegment extends StateTable {
  readonly method: "HERMITE" | "LAGRANGE" | "LINEAR";
  readonly degree: number;
  /** Whether the message says how to interpolate; if not, Hermite of degree 7 is taken. */
  readonly isMethodStated: boolean;
  /** Where the states may be used, TAI ms. */
  readonly usableFromMs: number;
  readonly usableUntilMs: number;
}

export interface Oem {
  readonly originator: string;
  readonly objectName: string;
  readonly frame: string;
  readonly timeSystem: TimeSystem;
  readonly segments: readonly OemSegment[];
}

/** Most lines that are read: ten years at ten minutes are half a million. */
export const MAX_OEM_LINES = 1_000_000;

/** A step this much longer than the steps on both sides of it is a gap. */
const GAP_FACTOR = 10;
const DEFAULT_DEGREE = 7;
const MAX_DEGREE = 25;

const refuse = (line: number, words: string): never => {
  throw new PlanningError("invalid input", `Line ${String(line)}: ${words}`, `line ${String(line)}`);
};

interface Line {
  readonly number: number;
  readonly text: string;
}

/** Keywords with where they stand. */
type Metadata = ReadonlyMap<string, { readonly value: string; readonly line: number }>;

interface Block {
  readonly metadata: Metadata;
  readonly startLine: number;
  readonly states: readonly Line[];
}

const KEYWORD = /^([A-Z][A-Z0-9_]*)\s*=\s*(.*)$/u;

const keyword = ({ number, text }: Line): readonly [string, { value: string; line: number }] => {
  const found = KEYWORD.exec(text);
  if (!found) return refuse(number, `“${text.slice(0, 40)}” is not KEYWORD = value.`);
  return [found[1] ?? "", { value: (found[2] ?? "").trim(), line: number }];
};

const ignored = (text: string): boolean => text === "" || /^COMMENT(\s|$)/u.test(text);

/** Divides the text into header and segments. */
const divide = (text: string): { header: Metadata; blocks: Block[] } => {
  const raw = text.split(/\r\n|\n|\r/u);
  if (raw.length > MAX_OEM_LINES) refuse(MAX_OEM_LINES + 1, `the file has more than ${String(MAX_OEM_LINES)} lines.`);
  const lines = raw
    .map((line, i): Line => ({ number: i + 1, text: line.trim() }))
    .filter((line) => !ignored(line.text));
  const first = lines[0];
  if (!first || !first.text.startsWith("CCSDS_OEM_VERS"))
    return refuse(first?.number ?? 1, "an orbit ephemeris message begins with CCSDS_OEM_VERS; this file does not.");
  const header = new Map<string, { value: string; line: number }>();
  const blocks: { metadata: Map<string, { value: string; line: number }>; startLine: number; states: Line[] }[] = [];
  let where: "header" | "metadata" | "states" | "covariance" = "header";
  for (const line of lines) {
    const block = blocks.at(-1);
    if (line.text === "META_START") {
      if (where === "metadata" || where === "covariance")
        refuse(line.number, "META_START stands within another block.");
      blocks.push({ metadata: new Map(), startLine: line.number, states: [] });
      where = "metadata";
    } else if (line.text === "META_STOP") {
      if (where !== "metadata") refuse(line.number, "META_STOP stands without META_START.");
      where = "states";
    } else if (line.text === "COVARIANCE_START") where = "covariance";
    else if (line.text === "COVARIANCE_STOP") where = "states";
    else if (where === "header") {
      const [name, found] = keyword(line);
      header.set(name, found);
    } else if (where === "metadata" && block) {
      const [name, found] = keyword(line);
      if (block.metadata.has(name)) refuse(line.number, `${name} stands twice in this metadata.`);
      block.metadata.set(name, found);
    } else if (where === "states") block?.states.push(line);
  }
  if (where === "metadata") refuse(lines.at(-1)?.number ?? 1, "META_STOP is missing.");
  if (blocks.length === 0) refuse(first.number, "the message has no metadata (META_START) and no states.");
  return { header, blocks };
};

const required = (block: Block, name: string): { value: string; line: number } => {
  const found = block.metadata.get(name);
  if (!found || found.value === "")
    return refuse(block.startLine, `${name} is missing in the metadata that begins here.`);
  return found;
};

const epochOf = (text: string, system: TimeSystem, line: number, name: string): number =>
  taiOfEpoch(text, system) ??
  refuse(line, `${name} “${text.slice(0, 40)}” is not an epoch such as 2031-01-01T00:00:00.000 (${system}).`);

const isSystem = (value: string): value is TimeSystem => (timeSystems as readonly string[]).includes(value);

const systemOf = (block: Block): TimeSystem => {
  const { value, line } = required(block, "TIME_SYSTEM");
  return isSystem(value) ? value : refuse(line, `TIME_SYSTEM ${value} cannot be read; ${timeSystems.join(", ")} can.`);
};

const statesOf = (block: Block, system: TimeSystem): StateTable => {
  const count = block.states.length;
  const taiMs = new Float64Array(count);
  const states = new Float64Array(6 * count);
  block.states.forEach(({ number, text }, i) => {
    const [epoch = "", ...cells] = text.split(/\s+/u);
    const numbers = cells.map(Number);
    if ((numbers.length !== 6 && numbers.length !== 9) || !numbers.every(Number.isFinite))
      refuse(number, "a state is an epoch, a position (3 numbers, km) and a velocity (3, km/s).");
    taiMs[i] = epochOf(epoch, system, number, "The epoch");
    if (i > 0 && !(taiMs[i] > (taiMs[i - 1] as number)))
      refuse(number, `the epoch ${epoch} is not after the one before it; states must stand in order of time.`);
    states.set(numbers.slice(0, 6), 6 * i);
  });
  return { taiMs, states };
};

const checkGaps = (block: Block, { taiMs }: StateTable): void => {
  const step = (i: number): number => (taiMs[i] as number) - (taiMs[i - 1] as number);
  for (let i = 1; i < taiMs.length; i += 1) {
    const beside = [i > 1 ? step(i - 1) : 0, i + 1 < taiMs.length ? step(i + 1) : 0];
    const usual = Math.max(...beside);
    if (usual > 0 && step(i) > GAP_FACTOR * usual)
      refuse(
        block.states[i]?.number ?? block.startLine,
        `a gap of ${(step(i) / 3_600_000).toFixed(1)} h lies before this state; its neighbours are ${(usual / 3_600_000).toFixed(2)} h apart.`,
      );
  }
};

const methodOf = (block: Block): Pick<OemSegment, "method" | "degree" | "isMethodStated"> => {
  const stated = block.metadata.get("INTERPOLATION");
  if (!stated || stated.value === "") return { method: "HERMITE", degree: DEFAULT_DEGREE, isMethodStated: false };
  const method = stated.value.toUpperCase();
  if (method !== "HERMITE" && method !== "LAGRANGE" && method !== "LINEAR")
    return refuse(stated.line, `INTERPOLATION ${stated.value} cannot be followed; HERMITE, LAGRANGE and LINEAR can.`);
  const { value, line } =
    method === "LINEAR" ? { value: "1", line: stated.line } : required(block, "INTERPOLATION_DEGREE");
  const degree = Number(value);
  if (!Number.isInteger(degree) || degree < 1 || degree > MAX_DEGREE)
    return refuse(line, `INTERPOLATION_DEGREE ${value} must be a whole number from 1 to ${String(MAX_DEGREE)}.`);
  return { method, degree, isMethodStated: true };
};

/** Epochs of the metadata and of the states may differ by rounding, ms. */
const SAME_MS = 1;

const segmentOf = (block: Block): OemSegment => {
  const system = systemOf(block);
  const table = statesOf(block, system);
  const { taiMs } = table;
  const interpolation = methodOf(block);
  const needs = interpolation.method === "HERMITE" ? 2 : interpolation.degree + 1;
  if (taiMs.length < needs)
    refuse(
      block.startLine,
      `this segment has ${String(taiMs.length)} states; its interpolation needs ${String(needs)}.`,
    );
  checkGaps(block, table);
  const at = (name: string): number | null => {
    const found = block.metadata.get(name);
    return found ? epochOf(found.value, system, found.line, name) : null;
  };
  const [first, last] = [taiMs[0] as number, taiMs.at(-1) as number];
  const covered = (name: string, wanted: number, isMet: boolean): void => {
    if (!isMet)
      refuse(
        block.metadata.get(name)?.line ?? block.startLine,
        `${name} and the states leave a gap of ${(Math.abs(wanted) / 3_600_000).toFixed(2)} h.`,
      );
  };
  const [startAt, stopAt] = [at("START_TIME"), at("STOP_TIME")];
  if (startAt === null) required(block, "START_TIME");
  if (stopAt === null) required(block, "STOP_TIME");
  const usableFromMs = at("USEABLE_START_TIME") ?? startAt ?? first;
  const usableUntilMs = at("USEABLE_STOP_TIME") ?? stopAt ?? last;
  covered("START_TIME", first - usableFromMs, first <= usableFromMs + SAME_MS);
  covered("STOP_TIME", usableUntilMs - last, last >= usableUntilMs - SAME_MS);
  return { ...table, ...interpolation, usableFromMs, usableUntilMs };
};

/** Refuses a second segment of another object, centre, frame or time system, or one that leaves a gap to the first. */
const checkAlike = (blocks: readonly Block[], segments: readonly OemSegment[]): void => {
  const [first] = blocks;
  blocks.forEach((block, i) => {
    if (!first || i === 0) return;
    for (const name of ["OBJECT_NAME", "REF_FRAME", "TIME_SYSTEM"]) {
      const [before, here] = [required(first, name), required(block, name)];
      if (before.value !== here.value)
        refuse(
          here.line,
          `${name} ${here.value} differs from ${before.value} in line ${String(before.line)}; one object in one frame and one time system can be read at a time.`,
        );
    }
    const [earlier, later] = [segments[i - 1], segments[i]];
    if (!earlier || !later) return;
    if (later.usableFromMs < earlier.usableFromMs)
      refuse(block.startLine, "this segment begins before the one above it; segments must stand in order of time.");
    const gap = later.usableFromMs - earlier.usableUntilMs;
    if (gap > SAME_MS)
      refuse(
        block.startLine,
        `a gap of ${(gap / 3_600_000).toFixed(2)} h lies between this segment and the one above it.`,
      );
  });
};

/**
 * Reads an ephemeris of an object about the Moon. Throws "invalid input" with the line and what is wrong there: another
 * body, mixed frames, times out of order, a gap, a keyword that is missing, a number that is none.
 */
export const readOem = (text: string): Oem => {
  const { header, blocks } = divide(text);
  for (const block of blocks) {
    const centre = required(block, "CENTER_NAME");
    if (centre.value.toUpperCase() !== "MOON")
      refuse(centre.line, `CENTER_NAME is ${centre.value}; windows are read from an orbit about the MOON.`);
  }
  const segments = blocks.map(segmentOf);
  checkAlike(blocks, segments);
  const [first] = blocks;
  if (!first) return refuse(1, "the message has no states.");
  return {
    originator: header.get("ORIGINATOR")?.value ?? "",
    objectName: required(first, "OBJECT_NAME").value,
    frame: required(first, "REF_FRAME").value,
    timeSystem: systemOf(first),
    segments,
  };
};
