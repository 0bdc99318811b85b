/** Runs that the ledger keeps, with seed and hash of their inputs: which still hold for the plan, run again, delete. */
import { useState } from "react";
import type { ListedRun } from "../../app/risk/kept-run.ts";
import { formatInstant } from "../format/instant.ts";
import { formatNumber } from "../format/number.ts";
import { useQuestion } from "../state/use-question.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { READ_ONLY } from "../widgets/unable.ts";

/** How many digits of a hash are shown: enough to tell two apart. */
const HASH_DIGITS = 12;

const columnsFor = (
  act: (run: ListedRun, what: "replay" | "delete") => void,
  isReadOnly: boolean,
): readonly Column<ListedRun>[] => [
  { id: "number", heading: "Run", isNumber: true, value: ({ number }) => number },
  { id: "at", heading: "Kept", value: ({ runAt }) => runAt, text: ({ runAt }) => formatInstant(runAt) },
  { id: "by", heading: "By", value: ({ author }) => author },
  { id: "case", heading: "Plan case", value: ({ caseName }) => caseName },
  {
    id: "runs",
    heading: "Runs",
    isNumber: true,
    value: ({ replications }) => replications,
    text: ({ replications }) => formatNumber(replications),
  },
  { id: "seed", heading: "Seed", isNumber: true, value: ({ seed }) => seed },
  {
    id: "holds",
    heading: "Holds",
    value: ({ isStale }) => (isStale ? "stale: plan or records have changed" : "of the plan as it is"),
  },
  {
    id: "hash",
    heading: "Answer",
    value: ({ answerHash }) => answerHash.slice(0, HASH_DIGITS),
    title: ({ answerHash, inputHash }) => `SHA-256 of the answer ${answerHash}; of the inputs ${inputHash}`,
  },
  {
    id: "act",
    heading: "With it",
    isWide: true,
    value: () => null,
    show: (run) => (
      <span className="risk-acts">
        <Button look="link" onPress={() => act(run, "replay")}>
          Run again
        </Button>
        <Button look="link" unable={isReadOnly ? READ_ONLY : null} onPress={() => act(run, "delete")}>
          Delete
        </Button>
      </span>
    ),
  },
];

export const KeptRuns = () => {
  const session = useSession();
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const { value: runs, failure, again } = useQuestion("risk runs", "risk.runs", {});
  const [said, setSaid] = useState("");
  const act = (run: ListedRun, what: "replay" | "delete"): void => {
    const { number } = run;
    if (what === "delete") {
      void session.command("risk.delete", { number }).then((reply) => {
        if (!reply.ok) session.fail(reply.failure);
        setSaid(reply.ok ? `Run ${String(number)} was deleted.` : "");
        again();
      });
      return;
    }
    const { reply } = session.work.begin(
      "risk.replay",
      { number },
      { title: `Run ${String(number)} again`, asker: "replay" },
    );
    void reply.then((answer) => {
      if (!answer.ok) session.fail(answer.failure);
      else
        setSaid(
          answer.value.isSame
            ? `Run ${String(number)} gives the same answer to the byte.`
            : `Run ${String(number)}: ${answer.value.remark ?? "another answer than the one kept."}`,
        );
    });
  };
  return (
    <div className="risk-sheet">
      <output>{said}</output>
      {failure !== null && <p className="form-fault">{failure.message}</p>}
      <DataTable
        caption="Runs kept in the ledger"
        columns={columnsFor(act, isReadOnly)}
        rows={runs ?? []}
        rowId={({ number }) => String(number)}
        empty="None yet. Run the plan, then keep the run: the ledger then holds its seed, the hash of its inputs and its answer."
      />
    </div>
  );
};
