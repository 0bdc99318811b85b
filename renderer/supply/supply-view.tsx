/** The supply check: will each sortie be fuelled, with what margin, and what that hangs on. Statuses at once, slack after. */
import { useReport } from "../inspector/consequence-lines.tsx";
import { useAction } from "../actions/use-actions.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Notice } from "../widgets/notice.tsx";
import { Progress } from "../widgets/progress.tsx";
import { Tabs } from "../widgets/tabs.tsx";
import { ViewPart, ViewSheet } from "../widgets/view-sheet.tsx";
import { FindingList } from "./finding-list.tsx";
import { FlightTable } from "./flight-table.tsx";
import { LineTable } from "./line-table.tsx";
import { SortieTable } from "./sortie-table.tsx";
import { standingSentence } from "./standing.ts";
import "./supply.css";

export const SupplyView = () => {
  const session = useSession();
  const current = useApp((state) => state.current);
  const state = useApp((app) => app.report);
  const report = useReport();
  useAction("plan.check", () => void session.loadReport(), { isEnabled: current !== null });
  if (current === null) return null;
  const { plan, glance } = current;
  return (
    <ViewSheet>
      <ViewPart>
        <p className="supply-standing">{standingSentence(plan, glance)}</p>
        {state.phase === "failed" && <Notice tone="failure">{state.failure.message}</Notice>}
        {report === null && state.phase !== "failed" && (
          <Progress label="Working out slack and what each sortie hinges on" share={null} />
        )}
      </ViewPart>
      <Tabs
        label="Supply check"
        sheets={[
          {
            id: "sorties",
            title: "By sortie",
            content: (
              <div className="supply-sheet">
                <SortieTable plan={plan} glance={glance} report={report} />
                <FindingList plan={plan} findings={glance.findings} />
              </div>
            ),
          },
          {
            id: "lines",
            title: "By propellant",
            content: <LineTable plan={plan} glance={glance} />,
          },
          {
            id: "flights",
            title: "Flights: latest departure",
            content: <FlightTable plan={plan} report={report} />,
          },
        ]}
      />
    </ViewSheet>
  );
};
