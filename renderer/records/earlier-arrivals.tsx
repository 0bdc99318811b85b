/**
 * What leaves a depot may be refused because an arrival there has no record yet: the books do not hold what it brought. The form
 * says so, and offers to record those arrivals, as they are forecast, in the same step.
 */
import { useState } from "react";
import { listed } from "../../app/words/counted.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { EarlierRecord } from "./earlier-record.tsx";
import { arrivalInput, departureInput } from "./flight-inputs.ts";
import { arrivalPrefill, departurePrefill } from "./prefill.ts";

const MAX_NAMED = 4;
/** As many as one record takes. */
const MAX_ARRIVALS = 20;

/** Flights that are forecast to have handed over at a depot by an instant, ms UTC, without a record of it; in order of arrival. */
const unrecorded = ({ plan, forecast }: CaseForecast, depotId: string, at: number) =>
  plan.flights
    .flatMap((flight) => {
      const said = forecast.flights.find(({ flightId }) => flightId === flight.id);
      const isAwaited = flight.status === "planned" || flight.status === "firm" || flight.status === "departed";
      if (!isAwaited || flight.depotId !== depotId || said?.arrives !== true) return [];
      const entered = arrivalPrefill(plan, flight, said);
      return entered.at <= at ? [{ flight, said, entered }] : [];
    })
    .toSorted((a, b) => a.entered.at - b.entered.at)
    .slice(0, MAX_ARRIVALS);

/** The offer (null: nothing is missing), and what it adds to the record. `depotId`: from where it is drawn; null: a source. */
export const useEarlierArrivals = (current: CaseForecast, depotId: string | null, at: number, ownId: string) => {
  const [isOn, setOn] = useState(false);
  const rows = depotId === null ? [] : unrecorded(current, depotId, at).filter(({ flight }) => flight.id !== ownId);
  if (rows.length === 0) return { offer: null, input: {} };
  const isOne = rows.length === 1;
  const names = listed(
    rows.map(({ flight }) => flight.name),
    MAX_NAMED,
  );
  const arrivals = rows.map(({ flight, said, entered }) => ({
    ...arrivalInput(flight, entered, ""),
    ...(flight.status === "departed"
      ? {}
      : { departure: departureInput(flight, departurePrefill(current.plan, flight, said), "") }),
  }));
  return {
    offer: (
      <EarlierRecord
        words={`${names} should have arrived by then and ${isOne ? "has" : "have"} no record of it: the books do not hold what ${isOne ? "it" : "they"} brought.`}
        offer={`Record ${isOne ? "its arrival" : "their arrivals"} as forecast in the same step`}
        isOn={isOn}
        onCommit={setOn}
      >
        <p className="form-advice">Where an arrival went otherwise than forecast, record it by itself first.</p>
      </EarlierRecord>
    ),
    input: isOn ? { arrivals } : {},
  };
};
