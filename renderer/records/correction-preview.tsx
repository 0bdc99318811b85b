/** What putting a record right will write: the counter-entry, the new entry, what is booked anew with it, and the levels. */
import type { LevelChange, RecordPreview } from "../../app/ledger/ledger-view.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { JournalEntry, Posting } from "../../app/ledger/journal.ts";
import { listed } from "../../app/words/counted.ts";
import { PostingList, kgOfGrams } from "../entries/posting-list.tsx";
import { formatInstant } from "../format/instant.ts";
import { formatNumber, withUnit } from "../format/number.ts";
import { entryTitle } from "../names/account-words.ts";
import { tankName } from "../names/entity-words.ts";

/** Several entries of one event, as of a metered handover, as one: lines on the same account and propellant added up. */
const together = (entries: readonly JournalEntry[], sign: 1 | -1): readonly Posting[] => {
  const sums = new Map<string, Posting>();
  for (const { postings } of entries)
    for (const posting of postings) {
      const key = JSON.stringify([posting.account, posting.propellantId]);
      sums.set(key, { ...posting, grams: (sums.get(key)?.grams ?? 0) + sign * posting.grams });
    }
  return [...sums.values()].filter(({ grams }) => grams !== 0);
};

const endOf = (entries: readonly JournalEntry[]): number => Math.max(...entries.map(({ at }) => at));

interface PartProps {
  readonly words: string;
  readonly entries: readonly JournalEntry[];
  readonly sign: 1 | -1;
  readonly plan: PlanSnapshot;
}

const Part = ({ words, entries, sign, plan }: PartProps) => {
  const [first] = entries;
  if (first === undefined) return null;
  return (
    <div>
      <p className="record-entry">
        {words}: {entryTitle(plan, first)}, <span className="figures">{formatInstant(endOf(entries))}</span>
      </p>
      <PostingList postings={together(entries, sign)} plan={plan} />
    </div>
  );
};

const MAX_NAMED = 6;

/** To the gram, as the postings above it. */
const kg = (massKg: number): string => withUnit(formatNumber(massKg, 3), "kg");

const Levels = ({ levels, plan }: { levels: readonly LevelChange[]; plan: PlanSnapshot }) => (
  <table className="posting-list record-levels">
    <caption>Levels</caption>
    <thead>
      <tr>
        <th scope="col">Tank</th>
        <th scope="col">Before</th>
        <th scope="col">After</th>
      </tr>
    </thead>
    <tbody>
      {levels.map(({ tankId, at, beforeKg, afterKg }) => (
        <tr key={`${tankId} ${at}`}>
          <td>
            {tankName(plan, tankId)}
            <span className="record-when figures">{formatInstant(at)}</span>
          </td>
          <td className="figures">{kg(beforeKg)}</td>
          <td className="figures">
            {kg(afterKg)}
            <span className="record-when">
              {beforeKg === afterKg ? "as it was" : kgOfGrams(Math.round((afterKg - beforeKg) * 1000))}
            </span>
          </td>
        </tr>
      ))}
    </tbody>
  </table>
);

interface CorrectionPreviewProps {
  readonly preview: RecordPreview;
  readonly wrongId: string;
  readonly plan: PlanSnapshot;
}

export const CorrectionPreview = ({ preview, wrongId, plan }: CorrectionPreviewProps) => {
  const { correction, entries } = preview;
  const reversed = correction?.reversed ?? [];
  const wrong = reversed.find(({ id }) => id === wrongId);
  const isOwn = ({ kind, subjectKey }: JournalEntry): boolean =>
    kind === wrong?.kind && subjectKey === wrong.subjectKey;
  const others = entries.filter((entry) => !isOwn(entry));
  return (
    <>
      <Part words="Reversed" entries={reversed.filter(isOwn)} sign={-1} plan={plan} />
      <Part words="Written" entries={entries.filter(isOwn)} sign={1} plan={plan} />
      {others.length > 0 && (
        <p className="form-advice">
          Booked anew, as what lies before it changes:{" "}
          {listed(
            others.map((entry) => `${entryTitle(plan, entry)}, ${formatInstant(entry.at)}`),
            MAX_NAMED,
          )}
          .
        </p>
      )}
      {correction !== null && correction.levels.length > 0 && <Levels levels={correction.levels} plan={plan} />}
      <p className="form-advice">One step: what is reversed and what is written both stay in the journal.</p>
    </>
  );
};
