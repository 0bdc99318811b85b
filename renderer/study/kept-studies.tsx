/** Studies that the ledger keeps: which still hold for the plan, looked at again, deleted. */
import type { ListedStudy } from "../../app/study/kept-study.ts";
import { formatInstant } from "../format/instant.ts";
import { formatNumber } from "../format/number.ts";
import { useQuestion } from "../state/use-question.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { READ_ONLY } from "../widgets/unable.ts";

interface KeptStudiesProps {
  readonly onLook: (study: ListedStudy) => void;
  /** One was deleted: it is no longer looked at. */
  readonly onDelete: (number: number) => void;
}

const columnsFor = (
  { onLook }: KeptStudiesProps,
  remove: (number: number) => void,
  isReadOnly: boolean,
): readonly Column<ListedStudy>[] => [
  { id: "number", heading: "Study", isNumber: true, value: ({ number }) => number },
  { id: "at", heading: "Kept", value: ({ keptAt }) => keptAt, text: ({ keptAt }) => formatInstant(keptAt) },
  { id: "by", heading: "By", value: ({ author }) => author },
  { id: "case", heading: "Plan case", value: ({ caseName }) => caseName },
  { id: "name", heading: "Over", isWide: true, value: ({ name }) => name },
  {
    id: "points",
    heading: "Points",
    isNumber: true,
    value: ({ points }) => points,
    text: ({ points }) => formatNumber(points),
  },
  {
    id: "holds",
    heading: "Holds",
    value: ({ isStale }) => (isStale ? "stale: plan, records or program have changed" : "of the plan as it is"),
    title: ({ planHash, program }) => `SHA-256 of the plan and the readings ${planHash}; version ${program}`,
  },
  {
    id: "act",
    heading: "With it",
    value: () => null,
    show: (study) => (
      <span className="study-acts">
        <Button look="link" onPress={() => onLook(study)}>
          Look at it
        </Button>
        <Button look="link" unable={isReadOnly ? READ_ONLY : null} onPress={() => remove(study.number)}>
          Delete
        </Button>
      </span>
    ),
  },
];

export const KeptStudies = (props: KeptStudiesProps) => {
  const session = useSession();
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const { value: studies, failure, again } = useQuestion("studies kept", "study.list", {});
  const remove = (number: number): void => {
    void session.command("study.delete", { number }).then((reply) => {
      if (!reply.ok) return session.fail(reply.failure);
      props.onDelete(number);
      session.tell("information", `Study ${String(number)} was deleted.`);
      again();
    });
  };
  return (
    <div className="study-panel">
      {failure !== null && <p className="form-fault">{failure.message}</p>}
      <DataTable
        caption="Studies kept in the ledger"
        columns={columnsFor(props, remove, isReadOnly)}
        rows={studies ?? []}
        rowId={({ number }) => String(number)}
        empty="None yet. Run a study to its end, then keep it: the ledger then holds its question, its rows and the hash of its inputs."
      />
    </div>
  );
};
