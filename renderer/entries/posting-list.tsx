/** The lines of a journal entry: account, propellant, kg in (+) or out (−). */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { type Posting, toKg } from "../../app/ledger/journal.ts";
import { formatSigned, withUnit } from "../format/number.ts";
import { PropellantMark } from "../widgets/propellant-mark.tsx";
import { accountWords } from "../names/account-words.ts";

/** Grams are exact; so many kg with three decimals. */
export const kgOfGrams = (grams: number): string => withUnit(formatSigned(toKg(grams), 3), "kg");

export const PostingList = ({ postings, plan }: { postings: readonly Posting[]; plan: PlanSnapshot }) => (
  <table className="posting-list">
    <caption className="unseen">Postings</caption>
    <tbody>
      {postings.map((posting, index) => (
        // Postings have no id; their order is fixed.
        // eslint-disable-next-line react/no-array-index-key
        <tr key={index}>
          <td>
            <PropellantMark
              propellant={plan.propellants.find(({ id }) => id === posting.propellantId)}
              words={accountWords(plan, posting.account)}
            />
          </td>
          <td className="figures">{kgOfGrams(posting.grams)}</td>
        </tr>
      ))}
    </tbody>
  </table>
);
