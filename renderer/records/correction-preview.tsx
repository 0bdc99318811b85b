/** What putting a record right will write: the counter-entry, the new entry, what is booked anew with it, and the levels. */
import type { LevelChange, RecordPreview } from "../../app/ledger/ledger-view.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { type AccountRef, type JournalEntry, toKg } from "../../app/ledger/journal.ts";
import { listed } from "../../app/words/counted.ts";
import { formatInstant } from "../format/instant.ts";
import { formatNumber, formatSigned } from "../format/number.ts";
import { accountWords, entryTitle } from "../names/account-words.ts";
import { tankName } from "../names/entity-words.ts";
import { PropellantMark } from "../widgets/propellant-mark.tsx";

/** One account and propellant: grams that are reversed, and that are written in their place. */
interface Line {
  readonly account: AccountRef;
  readonly propellantId: string;
  readonly reversed: number;
  readonly written: number;
}

/** The lines of both, in the order of what was recorded; several entries of one event, as of a metered handover, added up. */
const linesOf = (reversed: readonly JournalEntry[], written: readonly JournalEntry[]): readonly Line[] => {
  const lines = new Map<string, Line>();
  const add = (entries: readonly JournalEntry[], put: (line: Line, grams: number) => Line): void => {
    for (const { account, propellantId, grams } of entries.flatMap(({ postings }) => postings)) {
      const key = JSON.stringify([account, propellantId]);
      lines.set(key, put(lines.get(key) ?? { account, propellantId, reversed: 0, written: 0 }, grams));
    }
  };
  add(reversed, (line, grams) => ({ ...line, reversed: line.reversed - grams }));
  add(written, (line, grams) => ({ ...line, written: line.written + grams }));
  return [...lines.values()].filter((line) => line.reversed !== 0 || line.written !== 0);
};

/** "+1 900.000"; nothing where no such line is written. */
const kgIn = (grams: number): string => (grams === 0 ? "" : formatSigned(toKg(grams), 3));

interface EntriesProps {
  readonly reversed: readonly JournalEntry[];
  readonly written: readonly JournalEntry[];
  readonly plan: PlanSnapshot;
}

const endOf = (entries: readonly JournalEntry[]): string =>
  entries.length === 0 ? "nothing" : formatInstant(Math.max(...entries.map(({ at }) => at)));

/** A heading over a narrow column: day and hour each on a line of its own. */
const Heading = ({ words, entries }: { words: string; entries: readonly JournalEntry[] }) => (
  <th scope="col">
    {words}
    {endOf(entries)
      .split(" ")
      .map((part) => (
        <span key={part} className="record-when figures">
          {" "}
          {part}
        </span>
      ))}
  </th>
);

/** The counter-entry beside the entry that takes its place; what differs stands out. */
const Entries = ({ reversed, written, plan }: EntriesProps) => {
  const first = reversed[0] ?? written[0];
  if (first === undefined) return <p className="form-advice">No effect on the books.</p>;
  return (
    <table className="posting-list record-beside">
      <caption>{entryTitle(plan, first)}, in kg</caption>
      <thead>
        <tr>
          <th scope="col">Account</th>
          <Heading words="Reversed" entries={reversed} />
          <Heading words="Written" entries={written} />
        </tr>
      </thead>
      <tbody>
        {linesOf(reversed, written).map((line) => (
          <tr
            key={JSON.stringify([line.account, line.propellantId])}
            data-changed={line.reversed + line.written !== 0 || undefined}
          >
            <td>
              <PropellantMark
                propellant={plan.propellants.find(({ id }) => id === line.propellantId)}
                words={accountWords(plan, line.account)}
              />
            </td>
            <td className="figures">{kgIn(line.reversed)}</td>
            <td className="figures">{kgIn(line.written)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
};

const MAX_NAMED = 6;

/** To the gram, as the postings below it. */
const kg = (massKg: number): string => formatNumber(massKg, 3);

const Levels = ({ levels, plan }: { levels: readonly LevelChange[]; plan: PlanSnapshot }) => (
  <table className="posting-list record-levels">
    <caption>Levels, in kg</caption>
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
              {beforeKg === afterKg ? "as it was" : formatSigned(afterKg - beforeKg, 3)}
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
      {correction !== null && correction.levels.length > 0 && <Levels levels={correction.levels} plan={plan} />}
      <Entries reversed={reversed.filter(isOwn)} written={entries.filter(isOwn)} plan={plan} />
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
      <p className="form-advice">One step: what is reversed and what is written both stay in the journal.</p>
    </>
  );
};
