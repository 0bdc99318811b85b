/** A depot's departure windows: by period, as a list typed or pasted, or as passages read from an orbit ephemeris. */
import { useState } from "react";
import { FileTrigger } from "react-aria-components";
import { PlanningError } from "../../app/ground/failure.ts";
import { type EphemerisRead, readEphemeris, windowsFrom } from "../../app/ephemeris/windows-from.ts";
import type { Passage } from "../../app/ephemeris/passages.ts";
import type { Depot } from "../../app/entity/depot.ts";
import type { WindowList } from "../../app/entity/window-list.ts";
import { formatInstant as exactInstant, parseInstant } from "../../app/format/time.ts";
import { windowSourceWords } from "../../app/ledger/window-words.ts";
import { counted } from "../../app/words/counted.ts";
import { formatInstant } from "../format/instant.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { FormSection, StatedRow } from "../widgets/form-row.tsx";
import { NoteField } from "../widgets/note-field.tsx";
import { EditInstant, EditNumber } from "../editing/bound-fields.tsx";
import type { Editing } from "../editing/editing.ts";

/** A message that was read and waits to be taken. */
interface Held {
  readonly read: EphemerisRead;
  readonly fileName: string;
  readonly sha256: string;
}

const MAX_BYTES = 64_000_000;

const hold = async (file: File): Promise<Held> => {
  if (file.size > MAX_BYTES) throw new PlanningError("invalid input", `${file.name} is larger than 64 MB.`);
  const bytes = await file.arrayBuffer();
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  const sha256 = Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return { read: readEphemeris(new TextDecoder().decode(bytes)), fileName: file.name, sha256 };
};

const without = { windowPeriodDays: null, windowReferenceAt: null } as const;

/** To the minute where that is exact, so that a list that is edited keeps its other windows to the millisecond. */
const exactWords = (at: number): string => (at % 60_000 === 0 ? formatInstant(at) : exactInstant(at));

/** Instants of lines, rising, none twice. Throws the words of what is wrong, by line. */
const instantsOf = (text: string): number[] => {
  const lines = text.split(/\r\n|\n/u).map((line) => line.trim());
  const at = lines.flatMap((line, i) => {
    if (line === "") return [];
    try {
      return [parseInstant(line)];
    } catch {
      throw new PlanningError(
        "invalid input",
        `Line ${String(i + 1)}: “${line.slice(0, 40)}” is not an instant such as 2031-02-20 06:30.`,
      );
    }
  });
  return [...new Set(at)].toSorted((a, b) => a - b);
};

/** What the file has, to be looked at before it is taken. */
const HeldPassages = ({
  held,
  onTake,
  onLeave,
}: {
  held: Held;
  onTake: (list: WindowList) => void;
  onLeave: () => void;
}) => {
  const [kind, setKind] = useState<Passage["kind"]>("periapsis");
  const passages = held.read.passages.filter((passage) => passage.kind === kind);
  return (
    <>
      <StatedRow label="File" title={`SHA-256 ${held.sha256}`}>
        {held.fileName}: {held.read.oem.objectName}, {held.read.oem.frame}, {held.read.oem.timeSystem}
        {held.read.oem.segments.some(({ isMethodStated }) => !isMethodStated) &&
          "; it does not say how to interpolate: Hermite of degree 7 is taken"}
      </StatedRow>
      <ChoiceField
        label="Windows at"
        value={kind}
        choices={[
          { id: "periapsis", name: "periapsis" },
          { id: "apoapsis", name: "apoapsis" },
        ]}
        onCommit={setKind}
      />
      <StatedRow label="Passages (UTC)">
        <span className="window-passages">
          {passages.length === 0
            ? "none"
            : passages.map(({ at, heightKm }) => (
                <span key={at} className="window-passage">
                  {formatInstant(at)}, {heightKm.toFixed(0)} km
                </span>
              ))}
        </span>
      </StatedRow>
      <div className="form-buttons">
        <Button
          look="primary"
          unable={passages.length === 0 ? "The file has no such passage." : null}
          onPress={() => onTake(windowsFrom(held.read, kind, held))}
        >
          Take {counted(passages.length, "window")}
        </Button>
        <Button onPress={onLeave}>Cancel</Button>
      </div>
    </>
  );
};

export const WindowFields = ({ edit }: { readonly edit: Editing<Depot> }) => {
  const { value, isReadOnly } = edit;
  const list = value.windowList;
  const [held, setHeld] = useState<Held | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const put = (windowList: WindowList | null, words: string): void => {
    setFault(null);
    edit.change(windowList === null ? { windowList } : { ...without, windowList }, words);
  };
  const read = (files: FileList | null): void => {
    const file = files?.[0];
    if (file === undefined) return;
    setFault(null);
    hold(file).then(setHeld, (error: unknown) =>
      setFault(`${file.name}: ${error instanceof Error ? error.message : String(error)}`),
    );
  };
  const typed = (text: string): void => {
    try {
      const at = instantsOf(text);
      if (at.length === 0) put(null, "departure windows");
      else
        put(
          { at, source: list?.source.kind === "stated" ? list.source : { kind: "stated", basis: "" } },
          "departure windows",
        );
    } catch (error) {
      setFault(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <FormSection title="Departure windows">
      {list === null && (
        <>
          <EditNumber
            edit={edit}
            field="windowPeriodDays"
            label="Window interval"
            unit="days"
            min={0.01}
            max={1000}
            emptyWords="none"
          />
          <EditInstant edit={edit} field="windowReferenceAt" label="Reference window" emptyWords="not stated" />
        </>
      )}
      {list !== null && <StatedRow label="List">{windowSourceWords(value)}</StatedRow>}
      {(list === null ? value.windowPeriodDays === null : list.source.kind === "stated") && (
        <NoteField
          label="Windows, one a line"
          value={list === null ? "" : list.at.map(exactWords).join("\n")}
          most={100_000}
          isReadOnly={isReadOnly}
          fault={edit.faultOf("windowList")}
          onCommit={typed}
        />
      )}
      {fault !== null && (
        <p className="form-advice" role="alert">
          {fault}
        </p>
      )}
      {held !== null && (
        <HeldPassages
          held={held}
          onLeave={() => setHeld(null)}
          onTake={(taken) => {
            put(taken, "departure windows from an ephemeris");
            setHeld(null);
          }}
        />
      )}
      {!isReadOnly && held === null && (
        <div className="form-buttons">
          <FileTrigger acceptedFileTypes={[".oem", ".txt", ".kvn"]} onSelect={read}>
            <Button>Read an ephemeris…</Button>
          </FileTrigger>
          {list !== null && <Button onPress={() => put(null, "departure windows")}>Remove the list</Button>}
        </div>
      )}
    </FormSection>
  );
};
