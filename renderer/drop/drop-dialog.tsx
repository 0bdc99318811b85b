/** Asks what is to be done with a dropped ledger where there is more than one choice. */
import { useState } from "react";
import type { HeldFile } from "../../app/contract/bridge.ts";
import { useApp } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { RadioList, type RadioOption } from "../widgets/radio-list.tsx";
import type { DropChoice } from "./what-to-do.ts";

const confirms: Readonly<Record<DropChoice, string>> = {
  open: "Open ledger",
  import: "Import ledger",
  merge: "Look at its records",
  rows: "Look at its rows",
};

interface DropDialogProps {
  readonly file: HeldFile;
  readonly choices: readonly DropChoice[];
  readonly onGo: (choice: DropChoice) => void;
  readonly onClose: () => void;
}

export const DropDialog = ({ file, choices, onGo, onClose }: DropDialogProps) => {
  const programme = useApp((state) => state.ledger?.programme ?? "");
  const [choice, setChoice] = useState<DropChoice>(choices[0] ?? "open");
  const words: Readonly<Record<DropChoice, Omit<RadioOption<DropChoice>, "id">>> = {
    open: { name: "Open this ledger", words: `${programme} is closed; all of it is saved.` },
    import: { name: "Import it as a new ledger", words: "A new file is made of it; the document stays as it is." },
    merge: {
      name: `Merge its records into ${programme}`,
      words: "What would come in is shown first; the dropped file is only read.",
    },
    rows: { name: "Bring its rows in", words: "They are shown first." },
  };
  return (
    <Dialog
      title={file.name}
      width="narrow"
      confirm={confirms[choice]}
      onConfirm={() => {
        // After this dialog is gone, so that a dialog of what was chosen is not closed with it.
        queueMicrotask(() => onGo(choice));
        return true;
      }}
      onClose={onClose}
    >
      <RadioList
        label="What is to be done with it"
        value={choice}
        options={choices.map((id) => ({ id, ...words[id] }))}
        onChoose={setChoice}
      />
    </Dialog>
  );
};
