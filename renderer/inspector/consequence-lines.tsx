/** The consequence of what is selected, above its fields. */
import type { Flight } from "../../app/entity/flight.ts";
import type { Sortie } from "../../app/entity/sortie.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { RepairOffer } from "../repair/repair-offer.tsx";
import { useApp } from "../state/use-session.ts";
import { useSupply } from "../state/use-supply.ts";
import { Sentence } from "../widgets/sentence.tsx";
import { StatusMark } from "../widgets/status-mark.tsx";
import { flightConsequence, sortieConsequence } from "./consequence.ts";
import { LeaveByLines } from "./leave-by-lines.tsx";

export const FlightConsequence = ({ flight, current }: { flight: Flight; current: CaseForecast }) => {
  const isTrial = useApp((state) => state.trial !== null);
  const { value, isCurrent } = useSupply();
  const answer = isCurrent ? value : null;
  const forecast = current.forecast.flights.find(({ flightId }) => flightId === flight.id);
  return (
    <>
      <Sentences
        sentences={flightConsequence(current.plan, flight, forecast, answer)}
        isWaiting={answer === null && !isTrial}
      />
      {!isTrial && <LeaveByLines plan={current.plan} flightId={flight.id} />}
    </>
  );
};

export const SortieConsequence = ({ sortie, current }: { sortie: Sortie; current: CaseForecast }) => {
  const isTrial = useApp((state) => state.trial !== null);
  const held = useApp((state) => state.held);
  const { value, isCurrent } = useSupply();
  const answer = isCurrent ? value : null;
  const forecast = current.forecast.sorties.find(({ sortieId }) => sortieId === sortie.id);
  const supply = (held ?? current.glance).sorties.find(({ sortieId }) => sortieId === sortie.id);
  return (
    <>
      {supply !== undefined && (
        <p className="inspector-status">
          <StatusMark status={supply.status} />
        </p>
      )}
      <Sentences
        sentences={sortieConsequence(current.plan, supply, forecast, answer)}
        isWaiting={supply !== undefined && answer === null && !isTrial && held === null}
      />
      {supply?.status === "short" && !isTrial && held === null && <RepairOffer plan={current.plan} />}
    </>
  );
};

const Sentences = ({ sentences, isWaiting }: { sentences: readonly string[]; isWaiting: boolean }) => (
  <div className="consequence">
    {sentences.map((sentence) => (
      <p key={sentence}>
        <Sentence words={sentence} />
      </p>
    ))}
    {isWaiting && <p className="consequence-waiting">Working out slack…</p>}
  </div>
);
