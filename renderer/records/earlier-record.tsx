/** A record whose earlier event has no record: says so, and offers to record that one in the same step. */
import type { ReactNode } from "react";
import { CheckField } from "../widgets/check-field.tsx";
import { Notice } from "../widgets/notice.tsx";

interface EarlierRecordProps {
  /** "Packhorse 3 has no record of its departure." */
  readonly words: string;
  /** "Record its departure in the same step" */
  readonly offer: string;
  readonly isOn: boolean;
  readonly onCommit: (isOn: boolean) => void;
  /** The fields of the earlier event, shown once the offer is taken. */
  readonly children: ReactNode;
}

export const EarlierRecord = ({ words, offer, isOn, onCommit, children }: EarlierRecordProps) => (
  <>
    <Notice tone="warning">{words}</Notice>
    <CheckField isOn={isOn} onCommit={onCommit}>
      {offer}
    </CheckField>
    {isOn && children}
  </>
);
