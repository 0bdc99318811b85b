/** Reports: what the next one is to hold, the report as pages of paper, and the issues that the ledger keeps. */
import { useCallback, useEffect, useMemo, useState } from "react";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { RunLine } from "../widgets/run-line.tsx";
import { ChoicesPanel } from "./choices-panel.tsx";
import { ReportBar } from "./report-bar.tsx";
import { IssueList } from "./issue-list.tsx";
import { type Layout, Pages } from "./paper/pages.tsx";
import { firstPages } from "./paper/paginate.ts";
import { shown, subjectShown, useShown } from "./report-choices.ts";
import { useReport } from "./use-report.ts";
import "./reports.css";
import "./print.css";

export const ReportsView = () => {
  const path = useApp((state) => state.ledger?.path ?? null);
  const planCaseId = useApp((state) => state.planCaseId);
  const { path: laidOut } = useShown();
  if (planCaseId === null || path === null || laidOut !== path) return null;
  return <Reports key={path} planCaseId={planCaseId} />;
};

const Reports = ({ planCaseId }: { planCaseId: string }) => {
  const session = useSession();
  const shownNow = useShown();
  const compareCaseId = useApp((state) => state.compareCaseId);
  const {
    value: report,
    isCurrent,
    run,
    failure,
    again,
  } = useReport(subjectShown(shownNow, { planCaseId, compareCaseId }));
  const [layout, setLayout] = useState<Layout | null>(null);
  const take = useCallback((next: Layout) => setLayout(next), []);
  const firsts = useMemo(() => firstPages(layout?.pages ?? []), [layout]);
  const isLaidOut = report !== null && layout?.report === report && isCurrent;

  const { announce } = session;
  useEffect(() => {
    if (isLaidOut) announce(`The report has ${layout.pages.length} pages.`);
  }, [announce, isLaidOut, layout]);

  // The action came from anywhere: it waits until the pages are there.
  const isToPrint = shownNow.isToPrint && isLaidOut;
  useEffect(() => {
    if (!isToPrint) return;
    shown.set({ isToPrint: false });
    void session.client.host.print().then((reply) => reply.ok || session.fail(reply.failure));
  }, [session, isToPrint]);

  // Not at some later time, when nobody thinks of printing any more.
  useEffect(
    () => () => {
      if (session.store.get().view !== "reports") shown.set({ isToPrint: false });
    },
    [session],
  );
  useEffect(() => {
    if (failure !== null) shown.set({ isToPrint: false });
  }, [failure]);

  return (
    <div className="report-view">
      <aside className="report-side" aria-label="What the report holds">
        <ChoicesPanel firsts={firsts} />
        <IssueList />
      </aside>
      <section className="report-sheets" aria-label="The report">
        <ReportBar report={report} pages={layout?.pages.length ?? 0} />
        {run !== null && (
          <div className="report-coming">
            <RunLine run={run} words="Making the report" />
          </div>
        )}
        {failure !== null && (
          <p className="report-failure form-fault" role="alert">
            {failure.message}{" "}
            <Button look="link" onPress={again}>
              Make it again
            </Button>
          </p>
        )}
        {/* Reachable by keyboard, so that it can be scrolled by it. */}
        {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex */}
        <section className="report-scroll" tabIndex={0} aria-label="Pages" aria-busy={run !== null}>
          {report !== null && <Pages report={report} layout={layout} onLayout={take} />}
        </section>
      </section>
    </div>
  );
};
