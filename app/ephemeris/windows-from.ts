/** The list of windows that a depot keeps of an ephemeris: its passages of one kind, with where they come from. */
import { PlanningError } from "../ground/failure.ts";
import { MAX_WINDOWS, type WindowList } from "../entity/window-list.ts";
import { utcOfTai } from "./leap-seconds.ts";
import { type Passage, passagesOf } from "./passages.ts";
import { type Oem, readOem } from "./read-oem.ts";

/** A message that was read, and its passages. */
export interface EphemerisRead {
  readonly oem: Oem;
  readonly passages: readonly Passage[];
}

/** Reads a message and finds its passages. Throws "invalid input" by line and name, or for an orbit without apsides. */
export const readEphemeris = (text: string): EphemerisRead => {
  const oem = readOem(text);
  return { oem, passages: passagesOf(oem) };
};

/** The passages of one kind as windows. `sha256` is of the file's bytes. Throws where there are none, or too many. */
export const windowsFrom = (
  { oem, passages }: EphemerisRead,
  passage: Passage["kind"],
  file: { readonly fileName: string; readonly sha256: string },
): WindowList => {
  const at = passages.filter(({ kind }) => kind === passage).map((found) => found.at);
  if (at.length === 0)
    throw new PlanningError("invalid input", `The ephemeris of ${oem.objectName} covers no ${passage}.`);
  if (at.length > MAX_WINDOWS)
    throw new PlanningError(
      "invalid input",
      `The ephemeris has ${String(at.length)} ${passage} passages; a depot keeps ${String(MAX_WINDOWS)} at most.`,
    );
  return {
    at,
    source: {
      kind: "ephemeris",
      ...file,
      originator: oem.originator.slice(0, 200),
      objectName: oem.objectName.slice(0, 200),
      frame: oem.frame.slice(0, 40),
      timeSystem: oem.timeSystem,
      passage,
      fromAt: Math.round(utcOfTai(oem.segments[0]?.usableFromMs ?? 0)),
      untilAt: Math.round(utcOfTai(oem.segments.at(-1)?.usableUntilMs ?? 0)),
      found: at.length,
    },
  };
};
