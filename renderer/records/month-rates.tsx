/** The last part of a month's closing: each tank's measured loss rate beside the plan's, to adopt or to leave. */
import { useMemo, useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Tank } from "../../app/entity/tank.ts";
import { usualPart } from "../../app/losses/fit/usual-part.ts";
import { AdoptOrNot } from "../fit/adopt-or-not.tsx";
import { type FittedPart, PartField } from "../fit/part-field.tsx";
import { recordedSpan } from "../fit/recorded-span.ts";
import { formatDate } from "../format/instant.ts";
import { tankName } from "../names/entity-words.ts";
import { rateNow } from "../state/tank-now.ts";
import { useQuestion } from "../state/use-question.ts";
import { useApp } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { FormSection } from "../widgets/form-row.tsx";

interface MonthRatesProps {
  readonly depotId: string;
  /** The month's end: readings up to it count. */
  readonly at: number;
  /** What closing this leads to, in words. */
  readonly then: string;
  readonly onClose: () => void;
}

interface Span {
  readonly fromAt: number;
  readonly untilAt: number;
}

const TankRate = ({ plan, tank, span }: { plan: PlanSnapshot; tank: Tank; span: Span }) => {
  // As the rate stood when this was opened: adopting must not change the question under the hand.
  const [fitted, setFitted] = useState<FittedPart>(() => usualPart(rateNow(plan, tank.id)));
  const [adoptedFromAt, setAdopted] = useState<number | null>(null);
  const { fromAt, untilAt } = span;
  const asked = useMemo(
    () => ({
      planCaseId: plan.planCase.id,
      tankId: tank.id,
      fromAt,
      untilAt,
      fitted,
      rateChanges: "apart" as const,
      held: null,
      leftOutIds: [],
    }),
    [plan.planCase.id, tank.id, fromAt, untilAt, fitted],
  );
  const { value: fit, failure } = useQuestion(`month’s fit of ${tank.id}`, "losses.fit", asked, {
    title: "Fitting the loss rate",
  });
  return (
    <FormSection title={tankName(plan, tank.id)}>
      {adoptedFromAt === null && <PartField value={fitted} onCommit={setFitted} />}
      {adoptedFromAt !== null ? (
        <p className="form-advice">
          The fitted rate is in the plan from {formatDate(adoptedFromAt)}; the forecast has been computed anew.
        </p>
      ) : failure !== null ? (
        <p className="form-advice">No rate can be fitted: {failure.message}</p>
      ) : fit === null ? (
        <p className="form-advice">Fitting…</p>
      ) : (
        <AdoptOrNot plan={plan} asked={asked} fit={fit} onAdopted={setAdopted} />
      )}
    </FormSection>
  );
};

export const MonthRates = ({ depotId, at, then, onClose }: MonthRatesProps) => {
  const current = useApp((state) => state.current);
  if (current === null) return null;
  const { plan } = current;
  const span = recordedSpan(current);
  const tanks = plan.tanks.filter(({ ownerKind, ownerId }) => ownerKind === "depot" && ownerId === depotId);
  return (
    <Dialog title="The month is closed: measured rates" width="broad" onClose={onClose}>
      <p className="form-advice">
        Each rate is fitted on all readings up to {formatDate(at)}; the Losses view shows the curve and lets you leave
        readings out. {then}
      </p>
      {span === null ? (
        <p className="form-advice">Nothing is recorded yet, so there is nothing to fit.</p>
      ) : (
        tanks.map((tank) => (
          <TankRate key={tank.id} plan={plan} tank={tank} span={{ fromAt: span.fromAt, untilAt: at }} />
        ))
      )}
    </Dialog>
  );
};
