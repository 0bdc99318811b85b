/** The check of the ledger file: database, balance of the books, references. */
import { useEffect, useState } from "react";
import type { IntegrityReport } from "../../app/ledger/ledger-view.ts";
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
  const [report, setReport] = useState<IntegrityReport | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  useEffect(() => {
    let isWanted = true;
    void session.client.call("ledger.verify", {}).then((reply) => {
      if (!isWanted) return;
      if (reply.ok) setReport(reply.value);
      else setFault(reply.failure.message);
    });
    return () => {
      isWanted = false;
    };
  }, [session]);
  return (
    <Dialog title="Check the file" onClose={close} fault={fault}>
      {report === null && fault === null && <Progress label={`Checking ${fileName}`} share={null} />}
      {report?.isSound === true && (
        <Notice tone="information">
          {fileName} is sound: {formatNumber(report.entries)} entries with {formatNumber(report.postings)} postings,
          every one balanced, every reference whole.
        </Notice>
      )}
      {report?.isSound === true && report.books !== null && report.books.entries > 0 && (
        <p>
          Digest of the books, as reports print it:{" "}
          <span className="figures" title={`SHA-256 ${report.books.digest}`}>
            {shortHash(report.books.digest)}
          </span>
        </p>
      )}
      {report?.isSound === false && (
        <>
          <Notice tone="failure">{fileName} has faults. Keep a copy, and go on with a backup or an export.</Notice>
          <ul className="sentence-list">
            {report.faults.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </>
      )}
    </Dialog>
  );
};
