/** The consequence of what is selected, above its fields. */
import { useEffect } from "react";
import type { Flight } from "../../app/ledger/entity/flight.ts";
import type { Sortie } from "../../app/ledger/entity/sortie.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { StatusMark } from "../widgets/status-mark.tsx";
import { flightConsequence, sortieConsequence } from "./consequence.ts";
import { currentReport } from "./current-report.ts";

/** The full check is fetched when something that needs it is shown, after the hand has rested. */
const REST_MS = 400;

export const useReport = () => {
  const session = useSession();
  const report = useApp(currentReport);
  const revision = useApp((state) => state.ledger?.revision);
  const planCaseId = useApp((state) => state.planCaseId);
  useEffect(() => {
    if (report !== null) return;
    const timer = setTimeout(() => void session.loadReport(), REST_MS);
    return () => clearTimeout(timer);
    // eslint-disable-next-line react/exhaustive-effect-dependencies -- each revision starts the rest anew
  }, [session, report, revision, planCaseId]);
  return report;
};

export const FlightConsequence = ({ flight, current }: { flight: Flight; current: CaseForecast }) => {
  const report = useReport();
  const forecast = current.forecast.flights.find(({ flightId }) => flightId === flight.id);
  return (
    <Sentences sentences={flightConsequence(current.plan, flight, forecast, report)} isWaiting={report === null} />
  );
};

export const SortieConsequence = ({ sortie, current }: { sortie: Sortie; current: CaseForecast }) => {
  const report = useReport();
  const forecast = current.forecast.sorties.find(({ sortieId }) => sortieId === sortie.id);
  const supply = current.glance.sorties.find(({ sortieId }) => sortieId === sortie.id);
  return (
    <>
      {supply !== undefined && (
        <p className="inspector-status">
          <StatusMark status={supply.status} />
        </p>
      )}
      <Sentences
        sentences={sortieConsequence(current.plan, supply, forecast, report)}
        isWaiting={supply !== undefined && report === null}
      />
    </>
  );
};

const Sentences = ({ sentences, isWaiting }: { sentences: readonly string[]; isWaiting: boolean }) => (
  <div className="consequence">
    {sentences.map((sentence) => (
      <p key={sentence}>{sentence}</p>
    ))}
    {isWaiting && <p className="consequence-waiting">Working out slack…</p>}
  </div>
);
