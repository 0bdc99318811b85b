/** Asks what is to be done with a dropped ledger where there is more than one way. */
import { useState } from "react";
import type { HeldFile } from "../../app/contract/bridge.ts";
import { useApp } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { RadioList, type RadioWay } from "../widgets/radio-list.tsx";
import type { Way } from "./what-to-do.ts";

const confirms: Readonly<Record<Way, string>> = {
  open: "Open ledger",
  import: "Import ledger",
  merge: "Look at its records",
  rows: "Look at its rows",
};

interface WayDialogProps {
  readonly file: HeldFile;
  readonly ways: readonly Way[];
  readonly onGo: (way: Way) => void;
  readonly onClose: () => void;
}

export const WayDialog = ({ file, ways, onGo, onClose }: WayDialogProps) => {
  const programme = useApp((state) => state.ledger?.programme ?? "");
  const [way, setWay] = useState<Way>(ways[0] ?? "open");
  const words: Readonly<Record<Way, Omit<RadioWay<Way>, "id">>> = {
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
      confirm={confirms[way]}
      onConfirm={() => {
        // After this dialog is gone, so that a dialog of the way itself is not closed with it.
        queueMicrotask(() => onGo(way));
        return true;
      }}
      onClose={onClose}
    >
      <RadioList
        label="What is to be done with it"
        value={way}
        ways={ways.map((id) => ({ id, ...words[id] }))}
        onChoose={setWay}
      />
    </Dialog>
  );
};
