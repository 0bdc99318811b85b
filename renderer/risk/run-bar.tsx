/** What is asked: seed, number of runs or error; start and stop, and what the shown answer rests on. */
import type { RiskAnswer } from "../../app/risk/answer.ts";
import { runsWords } from "../../app/risk/answer-words.ts";
import { formatNumber, formatPercent } from "../format/number.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { RunLine } from "../widgets/run-line.tsx";
import { MAX_RUNS, setRiskChoices, useRiskChoices } from "../state/risk-choices.ts";
import type { ShownRisk } from "../state/use-risk.ts";
import { READ_ONLY } from "../widgets/unable.ts";

/** A block of draws: fewer runs there are not. */
const LEAST_RUNS = 64;
const MAX_SEED = 4_294_967_295;

export const RunBar = ({ answer, isCurrent, run, start }: ShownRisk) => {
  const session = useSession();
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const { seed, runs, error } = useRiskChoices();
  const keep = async (shown: RiskAnswer): Promise<void> => {
    const { planCaseId, replications } = shown;
    const asked = { planCaseId, seed: shown.seed, runs: replications, untilError: null, detail: "full" as const };
    const reply = await session.work.begin("risk.keep", asked, { title: "Keeping the run" }).reply;
    if (reply.ok) session.tell("information", `Run ${String(reply.value.number)} is kept in the ledger.`);
    else session.fail(reply.failure);
    await session.refresh();
  };
  return (
    <div className="risk-bar">
      <div className="risk-fields">
        <NumberField
          label="Runs"
          unit="runs"
          isWhole
          min={LEAST_RUNS}
          max={MAX_RUNS}
          step={10_000}
          value={runs}
          onCommit={(value) => setRiskChoices({ runs: value })}
        />
        <NumberField
          label="Largest error"
          unit="%"
          min={0.01}
          max={50}
          step={0.1}
          value={error * 100}
          onCommit={(value) => setRiskChoices({ error: value / 100 })}
        />
        <NumberField
          label="Seed"
          unit=""
          isWhole
          min={0}
          max={MAX_SEED}
          value={seed}
          onCommit={(value) => setRiskChoices({ seed: value })}
        />
        <div className="risk-start">
          <Button
            look="primary"
            unable={run === null ? null : "A run is under way; stop it first."}
            onPress={() => start(null)}
          >
            Run {formatNumber(runs)}
          </Button>
          <Button unable={run === null ? null : "A run is under way; stop it first."} onPress={() => start(error)}>
            Run until ±{formatPercent(error * 100, 2)}
          </Button>
        </div>
      </div>
      {run !== null && <RunLine run={run} words="Running the plan" />}
      {answer !== null && (
        <p className="risk-basis figures">
          {runsWords(answer)}
          {isCurrent ? "" : "; of the plan as it was: the new answer is on its way"}{" "}
          {isCurrent && run === null && (
            <Button look="link" unable={isReadOnly ? READ_ONLY : null} onPress={() => void keep(answer)}>
              Keep this run
            </Button>
          )}
        </p>
      )}
    </div>
  );
};
