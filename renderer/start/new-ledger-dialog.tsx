/** A new ledger: its programme's name and what it begins with; then the host asks where it goes. */
import { useState } from "react";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { useSession } from "../state/use-session.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { TextField } from "../widgets/text-field.tsx";
import { beginOutline, beginPlan } from "./first-case.ts";
import { OutlineForm } from "./outline-form.tsx";
import { type Outline, outlineFaults } from "./outline.ts";
import { type TemplateId, templates } from "./templates.ts";

const templateOf = (id: TemplateId) => templates.find((template) => template.id === id);

export const NewLedgerDialog = ({ close }: DialogProps) => {
  const session = useSession();
  const [programme, setProgramme] = useState("");
  const [templateId, setTemplateId] = useState<TemplateId>("two");
  const [outline, setOutline] = useState<Outline | null>(() => templateOf("two")?.outline ?? null);
  const [isAsked, setAsked] = useState(false);
  const [fault, setFault] = useState<string | null>(null);
  // What is refused of the outline is mended and tried again in the ledger that was made for it.
  const [isMade, setMade] = useState(false);
  const template = templateOf(templateId);
  const faults = outline === null ? {} : outlineFaults(outline);
  const make = async (): Promise<boolean> => {
    setAsked(true);
    if (programme === "" || Object.keys(faults).length > 0) return false;
    // An empty ledger is there to be filled.
    if (session.store.get().isShownOnly) session.showOnly(false);
    const copyOf = template?.copyOf ?? undefined;
    if (!isMade) {
      const before = session.store.get().ledger?.path;
      await session.open(() => session.client.host.createLedger(programme, copyOf));
      // No place was chosen for it: nothing of it may go into the ledger that was open before.
      if (session.store.get().ledger?.path === before) return false;
      setMade(true);
    }
    if (copyOf !== undefined) return true;
    await beginPlan(session);
    const words = outline === null ? null : await beginOutline(session, outline);
    setFault(words);
    return words === null;
  };
  return (
    <Dialog
      title="New ledger"
      width={outline === null ? "middle" : "wide"}
      confirm="Create ledger"
      fault={fault ?? (isAsked && Object.keys(faults).length > 0 ? "Some fields still need a figure." : null)}
      onConfirm={make}
      onClose={close}
    >
      <TextField
        label="Programme"
        value={programme}
        most={80}
        isRequired
        autoFocus
        fault={isAsked && programme === "" ? "A ledger needs the name of its programme." : null}
        onCommit={setProgramme}
      />
      <ChoiceField
        label="Begin with"
        value={templateId}
        choices={templates.map(({ id, name, note }) => ({ id, name, note }))}
        onCommit={(id) => {
          setTemplateId(id);
          setOutline(templateOf(id)?.outline ?? null);
          setAsked(false);
        }}
      />
      {outline !== null && <OutlineForm outline={outline} faults={isAsked ? faults : {}} onChange={setOutline} />}
      {outline === null && (
        <p className="form-advice">
          {template?.copyOf === null
            ? "A ledger is one file: the depots, craft, plans and records of one programme. It begins with one plan case; the inspector then lists what it needs, in order."
            : "Everything that is planned in the demonstration, as if nothing had happened yet: opening levels, flights and sorties still to come, no readings. Every figure is invented, and the ledger goes on saying that it is a demonstration."}
        </p>
      )}
    </Dialog>
  );
};
