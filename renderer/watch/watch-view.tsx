/** One list of what is overdue, short or thin, crosses the reserve, needs an engine or must leave soon, the earliest first. */
import { useMemo, useState } from "react";
import { WATCH_DAYS, type WatchItem, watchList } from "../../app/supply/watch.ts";
import { capitalised } from "../../app/words/counted.ts";
import { formatDate } from "../format/instant.ts";
import { useSupply } from "../state/use-supply.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { instantColumn } from "../widgets/instant-column.ts";
import { LookBackLine } from "../widgets/look-back.tsx";
import { Notice } from "../widgets/notice.tsx";
import { Progress } from "../widgets/progress.tsx";
import { RunLine } from "../widgets/run-line.tsx";
import { ViewPart, ViewSheet } from "../widgets/view-sheet.tsx";
import { daysOffWords, placeOf } from "./watch-rows.ts";

const COMING = "Working out latest departures";

const spans = [
  { id: "30", name: "30 days" },
  { id: "60", name: "60 days" },
  { id: "90", name: "90 days" },
  { id: "365", name: "a year" },
] as const;
type Span = (typeof spans)[number]["id"];

const columnsFor = (asOfAt: number, show: (item: WatchItem) => void): readonly Column<WatchItem>[] => [
  instantColumn("date", "Date", ({ at }) => at),
  {
    id: "off",
    heading: "From the as-of date",
    value: ({ at }) => at,
    text: ({ at }) => daysOffWords(at, asOfAt),
  },
  { id: "reason", heading: "What", value: ({ reason }) => capitalised(reason) },
  { id: "of", heading: "Of", value: ({ name }) => name },
  {
    id: "sentence",
    heading: "Why",
    isSentence: true,
    value: ({ sentence }) => sentence,
  },
  {
    id: "show",
    heading: "Go to",
    value: () => null,
    show: (item) => (
      <Button look="link" aria-label={`Show on the timeline: ${item.name}`} onPress={() => show(item)}>
        Timeline
      </Button>
    ),
  },
];

export const WatchView = () => {
  const session = useSession();
  const current = useApp((state) => state.current);
  const selection = useApp((state) => state.selection);
  const isTrial = useApp((state) => state.trial !== null);
  const [chosenId, setChosenId] = useState<string | null>(null);
  const [span, setSpan] = useState<Span>(String(WATCH_DAYS) as Span);
  const { value, isCurrent, run, failure } = useSupply();
  const latest = isCurrent ? value : null;
  const rows = useMemo(
    () => (current === null ? [] : watchList(current.plan, current.glance, latest, Number(span))),
    [current, latest, span],
  );
  const plan = current?.plan ?? null;
  const columns = useMemo(
    () =>
      plan === null
        ? []
        : columnsFor(plan.asOfAt, (item) => {
            const { view, stretch } = placeOf(plan, item);
            session.goTo(view, item.subject, stretch);
          }),
    [plan, session],
  );
  if (plan === null) return null;
  return (
    <ViewSheet>
      <ViewPart>
        <LookBackLine plan={plan} />
        {failure !== null && <Notice tone="failure">{failure.message}</Notice>}
        {isTrial && (
          <p className="form-advice">Flights that must leave soon are worked out for the saved plan alone.</p>
        )}
        {latest === null && failure === null && run === null && !isTrial && <Progress label={COMING} share={null} />}
        {run !== null && <RunLine run={run} words={COMING} />}
        <DataTable
          caption={`To watch, as of ${formatDate(plan.asOfAt)}`}
          tools={
            <ChoiceField
              isBare
              label="Flights that must leave within"
              value={span}
              choices={spans.map(({ id, name }) => ({ id, name: `must leave within ${name}` }))}
              onCommit={setSpan}
            />
          }
          columns={columns}
          rows={rows}
          rowId={({ id }) => id}
          selectedId={rows.find(({ id, subject }) => id === chosenId && subject.id === selection?.id)?.id ?? null}
          onSelect={({ id, subject }) => {
            setChosenId(id);
            session.select(subject);
          }}
          empty={
            latest === null
              ? "Nothing is overdue, thin or short, crosses its reserve or needs an engine."
              : `Nothing is overdue, thin or short, crosses its reserve or needs an engine, and no flight must leave within ${spans.find(({ id }) => id === span)?.name ?? span}.`
          }
        />
        <p className="form-advice">
          Days count from the as-of instant. To have these dates in a calendar file, tick “Dates to leave by and what is
          watched in the calendar” in Reports.
        </p>
      </ViewPart>
    </ViewSheet>
  );
};
