/** The proposal on paper: what was asked, what is proved, the sums of both plans, every change, and the caution. There only while it is printed. */
import { useSyncExternalStore } from "react";
import type { ShownResupply } from "../state/use-resupply.ts";
import { useApp } from "../state/use-session.ts";
import { answerSentences, purposeWords } from "../../app/resupply/answer-words.ts";
import { CAUTION } from "../../app/words/caution.ts";
import { nameIn } from "../../app/words/named.ts";
import { formatInstant } from "../format/instant.ts";
import { askedWords } from "./asked-words.ts";
import { sumRows } from "./sums-table.tsx";
import "./resupply-print.css";

/** Where there is no paper there is nothing to watch. */
const onPaper = typeof globalThis.matchMedia === "function" ? globalThis.matchMedia("print") : null;
let isPrinting = false;

const watchPrinting = (tell: () => void): (() => void) => {
  const begin = (): void => {
    isPrinting = true;
    tell();
  };
  const end = (): void => {
    isPrinting = false;
    tell();
  };
  globalThis.addEventListener("beforeprint", begin);
  globalThis.addEventListener("afterprint", end);
  onPaper?.addEventListener("change", tell);
  return () => {
    globalThis.removeEventListener("beforeprint", begin);
    globalThis.removeEventListener("afterprint", end);
    onPaper?.removeEventListener("change", tell);
  };
};

const isOnPaper = (): boolean => isPrinting || onPaper?.matches === true;

export const ProposalPaper = ({ shown: { asked, present, answer, isOld } }: { shown: ShownResupply }) => {
  const unit = useApp((state) => state.massUnit);
  const isShown = useSyncExternalStore(watchPrinting, isOnPaper);
  if (!isShown || asked === null || present === null || answer === null) return null;
  const { plan } = present;
  const sums = answer.proposed === null ? [] : sumRows(plan, answer.goal, answer.present, answer.proposed, unit);
  return (
    <section className="resupply-paper on-paper">
      <h2>Resupply proposal for {plan.planCase.name}</h2>
      <p>As of {formatInstant(plan.asOfAt)}; dates in UTC.</p>
      {isOld && <p>Of the plan as it was: it is another by now.</p>}
      <p>Asked: {askedWords(plan, asked)}</p>
      <h3>What was found, and what of it is proved</h3>
      <ul>
        {answerSentences(plan, answer).map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      {sums.length > 0 && (
        <table>
          <caption>Both plans</caption>
          <thead>
            <tr>
              <th scope="col">Of the plan</th>
              <th scope="col">Unit</th>
              <th scope="col">Present</th>
              <th scope="col">Proposal</th>
            </tr>
          </thead>
          <tbody>
            {sums.map((row) => (
              <tr key={row.id}>
                <th scope="row">{row.name}</th>
                <td>{row.unit}</td>
                <td className="figures">{row.present}</td>
                <td className="figures">{row.proposed}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {answer.changes.length > 0 && (
        <table>
          <caption>Flights added, kept and left out</caption>
          <thead>
            <tr>
              <th scope="col">Flight</th>
              <th scope="col">Change</th>
              <th scope="col">To</th>
              <th scope="col">Departs</th>
              <th scope="col">Arrives</th>
              <th scope="col">Why</th>
            </tr>
          </thead>
          <tbody>
            {answer.changes.map((change) => (
              <tr key={change.flight.id}>
                <th scope="row">{change.flight.name}</th>
                <td>{change.kind}</td>
                <td>{nameIn(plan.depots, change.flight.depotId)}</td>
                <td className="figures">{formatInstant(change.flight.departAt)}</td>
                <td className="figures">{formatInstant(change.flight.arriveAt)}</td>
                <td>{purposeWords(plan, change)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p className="resupply-paper-caution">{CAUTION}</p>
    </section>
  );
};
