/** The copies that are kept of the ledger: what going back to one would change, going back, and naming the present state. */
import { useRef, useState } from "react";
import { KEPT_FIRST, copyTitle, goingBackSentences, sinceSentence } from "../../app/copies/go-back-words.ts";
import type { GoingBack, KeptCopy } from "../../app/copies/kept-copy.ts";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { formatInstant } from "../format/instant.ts";
import { formatNumber, withUnit } from "../format/number.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { useQuestion } from "../state/use-question.ts";
import { Button } from "../widgets/button.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { Notice } from "../widgets/notice.tsx";
import { RadioList } from "../widgets/radio-list.tsx";
import { TextField } from "../widgets/text-field.tsx";
import { firstOf } from "../widgets/unable.ts";
import "./copies.css";

const MAX_NAME = 60;

const wordsOf = ({ kind, at, bytes }: KeptCopy): string =>
  `${kind === "day" ? "made by the program" : "named"}, ${formatInstant(at)} UTC, ${withUnit(formatNumber(Math.ceil(bytes / 1000)), "kB")}`;

/** What going back would change. */
const Look = ({ view }: { readonly view: GoingBack }) => (
  <section aria-label="What going back would change" className="copies-look">
    <h3>{copyTitle(view.copy)}</h3>
    <p>{sinceSentence(view)}</p>
    <ul className="sentence-list">
      {goingBackSentences(view).map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
    {view.cases
      .filter(({ words }) => words.length > 0)
      .map(({ name, words }) => (
        <section key={name} aria-label={`Changes in ${name}`}>
          <h3>{name}</h3>
          <ul className="sentence-list">
            {words.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </section>
      ))}
    {!view.isNothing && <p className="form-advice">{KEPT_FIRST}</p>}
  </section>
);

export const CopiesDialog = ({ close }: DialogProps) => {
  const session = useSession();
  const fileName = useApp((state) => state.ledger?.fileName ?? "");
  const isHeld = useApp((state) => state.ledger?.readOnlyBecause?.includes("it is open in") ?? false);
  const [chosen, setChosen] = useState<string | null>(null);
  const [name, setName] = useState("");
  // Pressing the button is what leaves the field: the name is taken in that very moment.
  const typed = useRef("");
  const take = (text: string): void => {
    typed.current = text;
    setName(text);
  };
  const [fault, setFault] = useState<string | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const [round, setRound] = useState(0);
  const kept = useQuestion(`copies ${round}`, "copies.list", {});
  const look = useQuestion("copy looked at", "copies.look", chosen === null ? null : { copyId: chosen });
  const copies = kept.value?.copies ?? [];
  const view = look.isCurrent ? look.value : null;

  const keep = async (): Promise<void> => {
    setSaid(null);
    setFault(typed.current === "" ? "Give the state a name by which you will know it again." : null);
    if (typed.current === "") return;
    const reply = await session.client.call("copies.keep", { name: typed.current });
    if (!reply.ok) {
      setFault(reply.failure.message);
      return;
    }
    setSaid(`The ledger as it is now is kept as “${reply.value.name}”.`);
    take("");
    setRound(round + 1);
  };
  const goBack = async (): Promise<boolean> => {
    if (view === null) return false;
    setFault(null);
    const reply = await session.client.call("copies.goBack", { copyId: view.copy.id, revision: view.revision });
    if (reply.ok) {
      session.tell(
        "information",
        `${fileName} is ${copyTitle(view.copy)} again. The state before is kept under a name.`,
      );
      return true;
    }
    setFault(reply.failure.message);
    return false;
  };

  return (
    <Dialog
      title="Kept copies"
      width="wide"
      confirm="Go back to this copy"
      unable={firstOf(
        [view === null, "Choose a copy first."],
        [view?.isNothing === true, "The ledger is as it was then: nothing would change."],
        [isHeld, "Another program has the ledger open."],
      )}
      onConfirm={goBack}
      onClose={close}
      fault={fault ?? kept.failure?.message ?? look.failure?.message ?? null}
    >
      <p className="form-advice">
        A copy is made on each day on which the ledger changed: the last seven are kept, and the first of each month.
        What you name stays. They lie in {kept.value?.folder ?? "the data folder"}: on the same disk, so they are no
        help if that is lost. Save a copy elsewhere too.
      </p>
      {kept.value?.fault != null && <Notice tone="warning">Today’s copy could not be made. {kept.value.fault}</Notice>}
      <div className="copies-keep">
        <TextField
          label="Name of the state as it is now"
          value={name}
          onCommit={take}
          most={MAX_NAME}
          placeholder="no name"
        />
        <Button look="plain" onPress={() => void keep()}>
          Keep this state
        </Button>
      </div>
      {said !== null && <Notice tone="information">{said}</Notice>}
      <div className="copies-halves">
        {copies.length === 0 ? (
          <p>
            {kept.value === null
              ? "Looking for copies."
              : "None is kept yet. The first is made when the ledger is opened to be changed."}
          </p>
        ) : (
          <div className="copies-list">
            <RadioList
              label="Copies, the latest first"
              value={chosen}
              options={copies.map((copy) => ({ id: copy.id, name: copyTitle(copy), words: wordsOf(copy) }))}
              onChoose={setChosen}
            />
          </div>
        )}
        {view === null ? (
          <p className="form-advice">
            {copies.length > 0 &&
              (chosen === null ? "Choose a copy to see what going back would change." : "Comparing with the ledger.")}
          </p>
        ) : (
          <Look view={view} />
        )}
      </div>
      {isHeld && (
        <Notice tone="warning">
          Another program has the ledger open. Going back is possible when it has been closed there.
        </Notice>
      )}
    </Dialog>
  );
};
