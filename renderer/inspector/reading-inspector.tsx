/** A gauge reading: what was measured, how surely, and what the books made of it. */
import { useState } from "react";
import type { PlanView } from "../../app/ledger/ledger-view.ts";
import { levelBefore } from "../../app/forecast/curve.ts";
import { formatInstant, formatWithWeekday } from "../format/instant.ts";
import { formatMass, formatMassChange } from "../format/mass.ts";
import { formatNumber } from "../format/number.ts";
import { CorrectReadingDialog } from "../records/reading-record.tsx";
import { WithdrawDialog } from "../entries/take-back-dialogs.tsx";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { StatedRow } from "../widgets/form-row.tsx";
import { Deselect } from "./deselect.tsx";
import { tankName } from "../names/entity-words.ts";

export const ReadingInspector = ({ readingId, view }: { readingId: string; view: PlanView }) => {
  const session = useSession();
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const [isCorrecting, setCorrecting] = useState(false);
  const [isWithdrawing, setWithdrawing] = useState(false);
  const reading = view.readings.find(({ id }) => id === readingId);
  if (reading === undefined) return null;
  const history = view.past.find(({ tankId }) => tankId === reading.tankId);
  const before = history === undefined ? null : levelBefore(history.segments, reading.at);
  const difference = before === null ? null : reading.massKg - before;
  const { entryId } = reading;
  return (
    <article className="inspector">
      <header className="inspector-head">
        <p className="inspector-kind">
          gauge reading{reading.isWithdrawn ? ", withdrawn" : ""}
          <Deselect />
        </p>
        <h2>{tankName(view.plan, reading.tankId)}</h2>
      </header>
      <StatedRow label="Read" title={formatWithWeekday(reading.at)}>
        <span className="figures">{formatInstant(reading.at)}</span>
      </StatedRow>
      <StatedRow label="Measured">
        <span className="figures">{formatMass(reading.massKg)}</span>
      </StatedRow>
      <StatedRow label="Uncertainty, 1 σ">
        <span className="figures">{formatMass(reading.sigmaKg)}</span>
      </StatedRow>
      {before !== null && difference !== null && (
        <>
          <StatedRow label="The books, just before">
            <span className="figures">{formatMass(before)}</span>
          </StatedRow>
          <StatedRow label="Difference">
            <span className="figures">
              {formatMassChange(difference)} ({formatNumber(Math.abs(difference) / reading.sigmaKg, 1)} σ)
            </span>
          </StatedRow>
        </>
      )}
      <StatedRow label="In the books">
        {entryId === null ? (
          "not taken in"
        ) : (
          <Button look="link" onPress={() => session.select({ kind: "entry", id: entryId })}>
            its entry
          </Button>
        )}
      </StatedRow>
      {reading.note !== "" && <p className="form-advice">{reading.note}</p>}
      {!isReadOnly && !reading.isWithdrawn && (
        <footer className="inspector-foot">
          <Button onPress={() => setCorrecting(true)}>Correct…</Button>
          <Button look="danger" onPress={() => setWithdrawing(true)}>
            Withdraw…
          </Button>
        </footer>
      )}
      {isCorrecting && <CorrectReadingDialog reading={reading} close={() => setCorrecting(false)} />}
      {isWithdrawing && <WithdrawDialog readingId={reading.id} onClose={() => setWithdrawing(false)} />}
    </article>
  );
};
