/** The window as a place to drop files: says what will happen, asks where there is a choice, never leaves the page. */
import { missingCase } from "../../app/ground/missing-case.ts";
import { useEffect, useRef, useState } from "react";
import type { HeldFile } from "../../app/contract/bridge.ts";
import type { Session } from "../state/session.ts";
import { useSession } from "../state/use-session.ts";
import { DropDialog } from "./drop-dialog.tsx";
import { type DropChoice, hoverWords, whatToDo } from "./what-to-do.ts";
import "./drop.css";

const hasFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") ?? false;

/** Does what was chosen with a held file. */
export const takeFile = (session: Session, choice: DropChoice, file: HeldFile): void => {
  const { host } = session.client;
  switch (choice) {
    case "open":
      void session.open(() => host.openLedger(file.token));
      return;
    case "import":
      void session.open(() => host.importHeld(file.token));
      return;
    case "merge":
      session.openDialog("file.merge", { file });
      return;
    case "rows":
      session.openDialog("file.import.rows", { file });
      return;
    default:
      return missingCase(choice);
  }
};

interface Asked {
  readonly file: HeldFile;
  readonly choices: readonly DropChoice[];
}

const take = async (session: Session, files: readonly File[], ask: (asked: Asked) => void): Promise<void> => {
  const { ledger, dialog } = session.store.get();
  if (dialog !== null) {
    session.tell("warning", "A dialog is open. Answer or close it first, then drop the file again.");
    return;
  }
  const found = whatToDo(
    files.map(({ name }) => name),
    ledger,
  );
  if (found.kind === "refused") {
    session.tell("warning", found.words);
    return;
  }
  const [dropped] = files;
  if (dropped === undefined) return;
  const reply = await session.client.host.holdDropped(dropped);
  if (!reply.ok) {
    session.fail(reply.failure);
    return;
  }
  const [only, ...others] = found.choices;
  if (only !== undefined && others.length === 0) takeFile(session, only, reply.value);
  else ask({ file: reply.value, choices: found.choices });
};

export const DropPlace = () => {
  const session = useSession();
  const [words, setWords] = useState<string | null>(null);
  const [asked, setAsked] = useState<Asked | null>(null);
  // Entering a part of the page leaves another: only the last leaving is one of the window.
  const depth = useRef(0);
  useEffect(() => {
    const say = (event: DragEvent): void => {
      const types = [...(event.dataTransfer?.items ?? [])]
        .filter(({ kind }) => kind === "file")
        .map(({ type }) => type);
      setWords(hoverWords(types, session.store.get().ledger));
    };
    const enter = (event: DragEvent): void => {
      if (!hasFiles(event)) return;
      event.preventDefault();
      depth.current += 1;
      say(event);
    };
    const over = (event: DragEvent): void => {
      if (!hasFiles(event)) return;
      event.preventDefault();
      if (event.dataTransfer !== null) event.dataTransfer.dropEffect = "copy";
      say(event);
    };
    const leave = (event: DragEvent): void => {
      // A drag that is given up leaves for nowhere.
      depth.current = event.relatedTarget === null ? 0 : Math.max(0, depth.current - 1);
      if (depth.current === 0) setWords(null);
    };
    const drop = (event: DragEvent): void => {
      // Whatever it is: the window must not go to it.
      event.preventDefault();
      depth.current = 0;
      setWords(null);
      if (hasFiles(event)) void take(session, [...(event.dataTransfer?.files ?? [])], setAsked);
    };
    const listeners = [
      ["dragenter", enter],
      ["dragover", over],
      ["dragleave", leave],
      ["drop", drop],
    ] as const;
    for (const [name, listener] of listeners) window.addEventListener(name, listener);
    return () => {
      for (const [name, listener] of listeners) window.removeEventListener(name, listener);
    };
  }, [session]);
  return (
    <>
      {words !== null && (
        <output className="drop-place">
          <p className="drop-words">
            <strong>Drop the file</strong>
            {words}
          </p>
        </output>
      )}
      {asked !== null && (
        <DropDialog
          file={asked.file}
          choices={asked.choices}
          onGo={(choice) => takeFile(session, choice, asked.file)}
          onClose={() => setAsked(null)}
        />
      )}
    </>
  );
};
