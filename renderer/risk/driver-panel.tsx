/** What the answer hangs on: inputs ranked by what they do to it, and what becomes of the plan without a flight or two. */
import { useCallback, useMemo } from "react";
import type { CaseForecast } from "../state/case-forecast.ts";
import type { Dropped, RiskCauses } from "../../app/risk/answer.ts";
import { changeText, isClear, shareText } from "../../app/risk/answer-words.ts";
import { inputTitle } from "../../app/risk/input-words.ts";
import { inputsInForce } from "../../app/risk/inputs-in-force.ts";
import { Plot } from "../plot/plot.tsx";
import { useQuestion } from "../state/use-question.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { RunPart } from "../widgets/run-part.tsx";
import { driverHeight, driverPicture, type NamedDriver } from "./driver-picture.ts";
import { namesOf } from "./names.ts";
import { QUICK_RUNS, useRiskChoices } from "../state/risk-choices.ts";

/** Drawn at most; the table has all. */
const MAX_DRAWN = 8;
const REST_MS = 600;
const NOT_YET = "Not looked at yet.";

const notes = [
  "change of the probability that all fly when planned, in percentage points; bars over it: 95 % intervals",
  "solid: the input exactly as planned; hatched: the input at its median",
  "pairs of runs under the same draws",
];

const driverColumns: readonly Column<NamedDriver>[] = [
  { id: "name", heading: "Input", value: ({ name }) => name },
  {
    id: "certain",
    heading: "Exactly as planned",
    unit: "points",
    isNumber: true,
    value: ({ driver }) => driver.certain.value,
    text: ({ driver }) => changeText(driver.certain),
    title: ({ driver }) => (isClear(driver.certain) ? undefined : "not told from nothing at 95 %"),
  },
  {
    id: "frozen",
    heading: "At its median",
    unit: "points",
    isNumber: true,
    value: ({ driver }) => driver.frozen.value,
    text: ({ driver }) => changeText(driver.frozen),
    title: ({ driver }) => (isClear(driver.frozen) ? undefined : "not told from nothing at 95 %"),
  },
];

const dropColumns = (
  nameOf: (id: string) => string,
  sortieNames: readonly string[],
  replications: number,
): readonly Column<Dropped>[] => [
  { id: "without", heading: "Without", value: ({ flightIds }) => flightIds.map(nameOf).join(" and ") },
  {
    id: "all",
    heading: "All fly when planned",
    isNumber: true,
    value: ({ allFly }) => allFly.value,
    text: ({ allFly }) => shareText(allFly, replications),
  },
  {
    id: "change",
    heading: "Change",
    unit: "points",
    isNumber: true,
    value: ({ change }) => change.value,
    text: ({ change }) => changeText(change),
  },
  {
    id: "worst",
    heading: "Hits most",
    isWide: true,
    value: ({ bySortie }) => Math.min(0, ...bySortie.map(({ value }) => value)),
    text: ({ bySortie }) => {
      const [worst] = bySortie
        .map((change, place) => ({ change, place }))
        .toSorted((a, b) => a.change.value - b.change.value);
      return worst === undefined || !isClear(worst.change) || worst.change.value >= 0
        ? "no sortie clearly"
        : `${sortieNames[worst.place] ?? ""} ${changeText(worst.change)}`;
    },
  },
];

const named = ({ plan, view }: CaseForecast, causes: RiskCauses): readonly NamedDriver[] => {
  const nameOf = namesOf(plan);
  const titles = new Map(
    inputsInForce(plan, view.readings).list.map(({ inputId, uncertainty }) => [
      inputId,
      inputTitle(uncertainty, nameOf),
    ]),
  );
  return causes.drivers.map((driver) => ({ name: titles.get(driver.inputId) ?? driver.inputId, driver }));
};

export const DriverPanel = ({ current }: { current: CaseForecast }) => {
  const { plan } = current;
  const { seed } = useRiskChoices();
  const { value, partial, isCurrent, run, failure, again } = useQuestion(
    "risk causes",
    "risk.causes",
    { planCaseId: plan.planCase.id, seed, runs: QUICK_RUNS },
    { title: "What the risk hangs on", restMs: REST_MS },
  );
  const causes = isCurrent ? value : (partial ?? value);
  const isOld = !isCurrent && partial === null;
  const rows = useMemo(() => (causes === null ? [] : named(current, causes)), [current, causes]);
  const nameOf = useMemo(() => namesOf(plan), [plan]);
  const sortieNames = useMemo(
    () => current.forecast.compiled.sortieIds.map(nameOf),
    [current.forecast.compiled, nameOf],
  );
  const drawn = useMemo(() => rows.slice(0, MAX_DRAWN), [rows]);
  const compose = useCallback(
    (size: { readonly width: number; readonly height: number }) => driverPicture(drawn, size),
    [drawn],
  );
  return (
    <div className="risk-sheet">
      <RunPart question={{ run, failure, again }} words="Looking for what it hangs on" />
      {causes !== null && (
        <div className={isOld ? "risk-sheet risk-old" : "risk-sheet"}>
          {drawn.length > 0 && (
            <>
              <p className="form-advice">
                Solid: the probability that all fly when planned, were the input exactly as planned. Hatched: were it
                always at its median. Upright lines end 95 % intervals; an interval over “as it is” is not told from
                nothing.
              </p>
              <Plot
                title="What the probability hangs on"
                notes={notes}
                height={driverHeight(drawn.length)}
                label={null}
                compose={compose}
              />
            </>
          )}
          <DataTable
            caption={`Change of the probability that all fly when planned, of ${String(causes.replications)} pairs of runs`}
            columns={driverColumns}
            rows={rows}
            rowId={({ driver }) => driver.inputId}
            empty={causes.isWhole ? "No input is uncertain." : NOT_YET}
          />
          <DataTable
            caption="Without one flight: as if it never flew"
            columns={dropColumns(nameOf, sortieNames, causes.replications)}
            rows={causes.dropOne}
            rowId={({ flightIds }) => flightIds.join("/")}
            empty={causes.isWhole ? "No flight is ahead." : NOT_YET}
          />
          <DataTable
            caption="Without two: pairs among the flights that cost most"
            columns={dropColumns(nameOf, sortieNames, causes.replications)}
            rows={causes.dropTwo}
            rowId={({ flightIds }) => flightIds.join("/")}
            empty={causes.isWhole ? "There is no pair to try." : NOT_YET}
          />
        </div>
      )}
    </div>
  );
};
