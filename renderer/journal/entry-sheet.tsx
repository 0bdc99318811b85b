/** The entries: filtered, paged, summed; a row opens to its postings. */
import { useMemo, useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { JournalEntry } from "../../app/ledger/journal.ts";
import { formatNumber } from "../format/number.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { instantColumn } from "../widgets/instant-column.ts";
import { accountWords, entryTitle } from "../names/account-words.ts";
import { FilterBar } from "./filter-bar.tsx";
import { PAGE_ROWS, isFiltered, wholeJournal } from "./journal-filter.ts";
import { PostingList, kgOfGrams } from "../entries/posting-list.tsx";
import { SumTable } from "./sum-table.tsx";
import { useJournalPage } from "./use-page.ts";

/** "+12 000.000 kg Tarn hydrogen main" for each tank that moved: what a reader looks for first. */
const tankWords = (plan: PlanSnapshot, { postings }: JournalEntry): string =>
  postings
    .filter(({ account, grams }) => account.kind === "tank" && grams !== 0)
    .map(({ account, grams }) => `${accountWords(plan, account)} ${kgOfGrams(grams)}`)
    .join("; ");

const columnsFor = (plan: PlanSnapshot): readonly Column<JournalEntry>[] => [
  instantColumn("at", "Date", ({ at }) => at),
  { id: "kind", heading: "Entry", value: (entry) => entryTitle(plan, entry) },
  { id: "tanks", heading: "Tanks", value: (entry) => tankWords(plan, entry) },
  { id: "author", heading: "By", value: ({ author }) => author },
  { id: "note", heading: "Note", isSentence: true, value: ({ note }) => note },
];

const postingsOf = (plan: PlanSnapshot) => (entry: JournalEntry) => (
  <PostingList postings={entry.postings} plan={plan} />
);

export const EntrySheet = ({ plan }: { plan: PlanSnapshot }) => {
  const session = useSession();
  const selection = useApp((state) => state.selection);
  const [filter, setFilter] = useState(wholeJournal);
  const page = useJournalPage(filter);
  const columns = useMemo(() => columnsFor(plan), [plan]);
  const total = page?.total ?? 0;
  const last = Math.min(total, filter.offset + PAGE_ROWS);
  return (
    <div className="journal-sheet">
      <FilterBar plan={plan} filter={filter} onFilter={setFilter} />
      <DataTable
        caption={`${formatNumber(total)} ${total === 1 ? "entry" : "entries"}`}
        columns={columns}
        rows={page?.entries ?? []}
        rowId={({ id }) => id}
        selectedId={selection?.kind === "entry" ? selection.id : null}
        onSelect={({ id }) => session.select({ kind: "entry", id })}
        tone={({ kind }) => (kind === "reversal" ? "faint" : undefined)}
        detail={postingsOf(plan)}
        empty={
          isFiltered(filter)
            ? "No entries match."
            : "Nothing is recorded yet. Begin with the opening levels, in the form of each tank."
        }
        tools={
          total > PAGE_ROWS && (
            <span className="pager">
              <span className="figures">
                {formatNumber(filter.offset + 1)} to {formatNumber(last)}
              </span>
              <Button
                unable={filter.offset === 0 ? "These are the newest entries." : null}
                onPress={() => setFilter({ ...filter, offset: Math.max(0, filter.offset - PAGE_ROWS) })}
              >
                Newer
              </Button>
              <Button
                unable={last >= total ? "These are the oldest entries." : null}
                onPress={() => setFilter({ ...filter, offset: filter.offset + PAGE_ROWS })}
              >
                Older
              </Button>
            </span>
          )
        }
      />
      <SumTable sums={page?.sums ?? []} plan={plan} />
    </div>
  );
};
