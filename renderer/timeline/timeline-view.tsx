/** The home view: the timeline as a chart or as tables, and the tools above it. */
import { overdueWords } from "../../app/forecast/assumed.ts";
import { useMemo } from "react";
import type { Depot } from "../../app/entity/depot.ts";
import { overdueOf } from "../../app/supply/answer.ts";
import { actionOf } from "../actions/registry.ts";
import { useAction, useActions } from "../actions/use-actions.ts";
import { clampStretch, panBy, zoomAbout, type Stretch } from "../../app/picture/time-scale.ts";
import { useCharts } from "../plot/chart-list.ts";
import { chartActions } from "../plot/chart-place.tsx";
import { useCompared } from "./model/use-timeline-proposal.ts";
import { useTimelineRisk } from "./model/use-timeline-risk.ts";
import { isFiltering } from "../state/plan-filter.ts";
import { showOnTimeline } from "../state/use-resupply.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { LookBackLine } from "../widgets/look-back.tsx";
import { MenuButton } from "../widgets/menu-button.tsx";
import { formatDate } from "../format/instant.ts";
import { TimelineChart } from "./body/timeline-chart.tsx";
import { wholeChart } from "./body/use-paper.ts";
import { FilterBar } from "./filter-bar.tsx";
import { timelineModel, wholeOf } from "./model/timeline-model.ts";
import { TimelineTable } from "./table/timeline-table.tsx";
import "./timeline.css";

const ZOOM = 1.6;
const NO_DEPOTS: readonly Depot[] = [];
/** No depot has an id with a space in it. */
const ALL_DEPOTS = "all depots";

export const TimelineView = () => {
  const session = useSession();
  const isTable = useApp((state) => state.isTimelineTable);
  const plan = useApp((state) => state.current?.plan ?? null);
  const hasDepot = useApp((state) => (state.current?.plan.depots.length ?? 0) > 0);
  useAction("view.table", () => session.store.set({ isTimelineTable: !isTable }), { isOn: isTable });
  const isWithBands = useApp((state) => state.isWithBands);
  useAction("view.bands", () => session.store.set({ isWithBands: !isWithBands }), { isOn: isWithBands });
  useAction("view.wholeCampaign", () => session.store.set({ timeWindow: null }));
  if (plan === null) return <p className="timeline-empty" aria-busy="true" />;
  if (!hasDepot) return <NothingYet />;
  return (
    <>
      <LookBackLine plan={plan} />
      <TimelineTools />
      <TimelineFilter />
      {isTable ? <TimelineTable /> : <TimelineCharts />}
      {!isTable && <AssumedNote />}
      {!isTable && <ProposalNote />}
      {!isTable && <BandNote />}
    </>
  );
};

/** The depots that are shown: one, or all of them. */
const useShownDepots = (): readonly Depot[] => {
  const depots = useApp((state) => state.current?.plan.depots ?? NO_DEPOTS);
  const depotId = useApp((state) => state.depotId);
  const areAll = useApp((state) => state.areAllDepots);
  const one = depots.find(({ id }) => id === depotId) ?? depots[0];
  return areAll ? depots : one === undefined ? NO_DEPOTS : [one];
};

/** All that these depots show, on one axis; it stays the same object while it is the same stretch. */
const useWhole = (depots: readonly Depot[]): Stretch | null => {
  const current = useApp((state) => state.current);
  const whole = current === null ? null : wholeOf(depots.flatMap(({ id }) => timelineModel(current, null, id) ?? []));
  const fromAt = whole?.fromAt ?? null;
  const untilAt = whole?.untilAt ?? null;
  return useMemo(() => (fromAt === null || untilAt === null ? null : { fromAt, untilAt }), [fromAt, untilAt]);
};

/** One chart, or one below the other on one time axis. */
const TimelineCharts = () => {
  const depots = useShownDepots();
  const whole = useWhole(depots);
  const [only] = depots;
  if (depots.length < 2) return <TimelineChart depotId={only?.id ?? null} axis={null} />;
  return (
    <div className="timeline-stack">
      {depots.map(({ id, name }) => (
        <section key={id} className="timeline-of-depot" aria-label={name}>
          <h2>{name}</h2>
          <TimelineChart depotId={id} axis={whole} />
        </section>
      ))}
    </div>
  );
};

const TimelineFilter = () => {
  const current = useApp((state) => state.current);
  const filter = useApp((state) => state.filter);
  const depots = useShownDepots();
  if (current === null) return null;
  const models = depots.flatMap(({ id }) => timelineModel(current, null, id, null, null, filter) ?? []);
  return <FilterBar plan={current.plan} models={models} />;
};

/**
 * What the bands are, and how much of them is assumed. Its room is kept while they are computed: a line that came in
 * under the chart would move every bar just when a hand reaches for it.
 */
const BandNote = () => {
  const isWanted = useApp((state) => state.isWithBands);
  const risk = useTimelineRisk();
  if (!isWanted) return null;
  return <p className="timeline-band-note">{risk === null ? "" : `Risk ${risk.note}.`}</p>;
};

/** What hatched bars and broken levels are: events whose time has passed without a record. */
const AssumedNote = () => {
  const words = useApp(({ current }) =>
    current === null ? null : overdueWords(current.plan, overdueOf(current.glance.findings)),
  );
  return words === null ? null : (
    <p className="timeline-assumed-note">
      <span className="assumed-key" aria-hidden="true" /> Hatched bars and broken levels: {words}.
    </p>
  );
};

/** What the ghosts are, with the way to the proposal and the way to be rid of them. */
const ProposalNote = () => {
  const session = useSession();
  const { proposal } = useCompared();
  if (proposal === null) return null;
  return (
    <p className="timeline-proposal-note">
      Dashed blocks and dotted levels: the resupply proposal.{" "}
      <Button look="link" onPress={() => session.show("resupply")}>
        Go to the proposal
      </Button>{" "}
      <Button look="link" onPress={() => showOnTimeline(false)}>
        Hide it here
      </Button>
    </p>
  );
};

const NothingYet = () => {
  const session = useSession();
  return (
    <div className="timeline-empty">
      <h2>This ledger has no depot yet</h2>
      <p>
        The timeline shows a depot&rsquo;s flights, sorties and levels. Add a depot with its tanks, then craft, then
        flights.
      </p>
      <p>
        <Button look="primary" onPress={() => session.show("depots")}>
          Go to Depots
        </Button>
      </p>
    </div>
  );
};

/** Copies or saves the timeline as a whole. */
const ChartButton = ({ depotId }: { readonly depotId: string }) => {
  const actions = useActions();
  const charts = useCharts();
  const choices = chartActions.map((id) => ({
    id,
    label: actionOf(id).label,
    run: () => {
      charts.touch(wholeChart(depotId));
      // After the menu has closed, and the actions know which chart is meant.
      setTimeout(() => actions.run(id));
    },
  }));
  return <MenuButton look="quiet" label="Copy or save" choices={choices} />;
};

const TimelineTools = () => {
  const session = useSession();
  const actions = useActions();
  const { store } = session;
  const current = useApp((state) => state.current);
  const depotId = useApp((state) => state.depotId);
  const timeWindow = useApp((state) => state.timeWindow);
  const isTable = useApp((state) => state.isTimelineTable);
  const areAllDepots = useApp((state) => state.areAllDepots);
  const filter = useApp((state) => state.filter);
  const isFilterOpen = useApp((state) => state.isFilterOpen);
  const depots = current?.plan.depots ?? [];
  const shownDepot = depots.find((depot) => depot.id === depotId) ?? depots[0];
  const whole = useWhole(useShownDepots());
  if (whole === null) return null;
  const shown = clampStretch(timeWindow ?? whole, whole);
  const set = (next: Stretch): void => store.set({ timeWindow: next });
  const middle = (shown.fromAt + shown.untilAt) / 2;
  const half = (shown.untilAt - shown.fromAt) / 2;
  return (
    <section className="timeline-tools" aria-label="Timeline tools">
      {depots.length > 1 && (
        <ChoiceField
          isBare
          label="Depot"
          value={areAllDepots ? ALL_DEPOTS : (shownDepot?.id ?? null)}
          choices={[...depots.map(({ id, name }) => ({ id, name })), { id: ALL_DEPOTS, name: "All depots" }]}
          onCommit={(id) =>
            store.set(id === ALL_DEPOTS ? { areAllDepots: true } : { areAllDepots: false, depotId: id })
          }
        />
      )}
      {depots.length === 1 && (
        <strong className="timeline-depot" title={shownDepot?.name}>
          {shownDepot?.name}
        </strong>
      )}
      <span className="figures timeline-range">
        {formatDate(shown.fromAt)} to {formatDate(shown.untilAt)}
      </span>
      {!isTable && (
        <>
          <Button look="quiet" aria-label="Earlier" onPress={() => set(panBy(shown, -half, whole))}>
            ‹
          </Button>
          <Button look="quiet" aria-label="Later" onPress={() => set(panBy(shown, half, whole))}>
            ›
          </Button>
          <Button look="quiet" aria-label="Zoom in" onPress={() => set(zoomAbout(shown, middle, ZOOM, whole))}>
            +
          </Button>
          <Button look="quiet" aria-label="Zoom out" onPress={() => set(zoomAbout(shown, middle, 1 / ZOOM, whole))}>
            −
          </Button>
          <span className="timeline-tool-fit">
            <Button
              look="quiet"
              unable={timeWindow === null ? "Everything is shown." : null}
              onPress={() => store.set({ timeWindow: null })}
            >
              Fit all
            </Button>
          </span>
        </>
      )}
      <span className="timeline-tools-gap" />
      {!isTable && shownDepot !== undefined && !areAllDepots && (
        <span className="timeline-tool-copy">
          <ChartButton depotId={shownDepot.id} />
        </span>
      )}
      <Button
        look="quiet"
        aria-expanded={isFilterOpen || isFiltering(filter)}
        onPress={() => store.set({ isFilterOpen: !isFilterOpen })}
      >
        Filter
      </Button>
      <span className="timeline-tool-add">
        <Button look="quiet" onPress={() => actions.run("plan.addFlight")}>
          Add flight…
        </Button>
        <Button look="quiet" onPress={() => actions.run("plan.addSortie")}>
          Add sortie…
        </Button>
      </span>
      <Button onPress={() => store.set({ isTimelineTable: !isTable })}>{isTable ? "Chart" : "Table"}</Button>
    </section>
  );
};
