/** The check of the ledger file: database, balance of the books, references. */
import { useEffect, useState } from "react";
import type { Soundness } from "../../app/ledger/ledger-view.ts";
import { shortHash } from "../../app/report/format/subtitle.ts";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { formatNumber } from "../format/number.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { Notice } from "../widgets/notice.tsx";
import { Progress } from "../widgets/progress.tsx";

export const VerifyDialog = ({ close }: DialogProps) => {
  const session = useSession();
  const fileName = useApp((state) => state.ledger?.fileName ?? "");
  const [soundness, setSoundness] = useState<Soundness | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  useEffect(() => {
    let isWanted = true;
    void session.client.call("ledger.verify", {}).then((reply) => {
      if (!isWanted) return;
      if (reply.ok) setSoundness(reply.value);
      else setFault(reply.failure.message);
    });
    return () => {
      isWanted = false;
    };
  }, [session]);
  return (
    <Dialog title="Check the file" onClose={close} fault={fault}>
      {soundness === null && fault === null && <Progress label={`Checking ${fileName}`} share={null} />}
      {soundness?.isSound === true && (
        <Notice tone="information">
          {fileName} is sound: {formatNumber(soundness.entries)} entries with {formatNumber(soundness.postings)}{" "}
          postings, every one balanced, every reference whole.
        </Notice>
      )}
      {soundness?.isSound === true && soundness.books !== null && soundness.books.entries > 0 && (
        <p>
          Digest of the books, as reports print it:{" "}
          <span className="figures" title={`SHA-256 ${soundness.books.digest}`}>
            {shortHash(soundness.books.digest)}
          </span>
        </p>
      )}
      {soundness?.isSound === false && (
        <>
          <Notice tone="failure">{fileName} has faults. Keep a copy, and go on with a backup or an export.</Notice>
          <ul className="sentence-list">
            {soundness.faults.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </>
      )}
    </Dialog>
  );
};
