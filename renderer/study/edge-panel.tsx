/** How far each sortie holds along one input: up to which value it is supplied, and how far that is from today. */
import { useMemo, useState } from "react";
import type { EdgeAnswer } from "../../app/study/edge.ts";
import { edgeText } from "../../app/study/edge-words.ts";
import type { StudyAsked } from "../../app/study/question.ts";
import { useQuestion } from "../state/use-question.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { RunPart } from "../widgets/run-part.tsx";
import { reachOf } from "../../app/study/values.ts";

interface EdgePanelProps {
  readonly planCaseId: string;
  readonly asked: StudyAsked;
  readonly names: readonly string[];
}

const REST_MS = 400;
/** Parts of the range that an edge is found to, as a power of ten. */
const PARTS = 10_000;

const edgeOf = ({ crossings, isMonotone }: EdgeAnswer): number | null => {
  const [first] = crossings;
  if (first === undefined || !isMonotone) return null;
  return first.turns === "not supplied" ? first.below : first.above;
};

export const EdgePanel = ({ planCaseId, asked, names }: EdgePanelProps) => {
  const session = useSession();
  const selection = useApp((state) => state.selection);
  const [wanted, setWanted] = useState(0);
  const place = wanted < asked.inputs.length ? wanted : 0;
  const input = asked.inputs[place];
  const { least, most } = input === undefined ? { least: 0, most: 0 } : reachOf(input.values);
  const hasReach = Number.isFinite(most - least) && most > least;
  const tolerance = hasReach ? 10 ** Math.floor(Math.log10((most - least) / PARTS)) : 0.001;
  const { value, isCurrent, run, failure, again } = useQuestion(
    "study edges",
    "study.edges",
    input === undefined ? null : { planCaseId, input, tolerance },
    { title: "How far it holds", restMs: REST_MS },
  );
  const columns = useMemo(
    (): readonly Column<EdgeAnswer>[] => [
      { id: "sortie", heading: "Sortie", value: ({ sortieName }) => sortieName },
      {
        id: "edge",
        heading: "Edge",
        isNumber: true,
        value: (row) => edgeOf(row),
        text: (row) => String(edgeOf(row) === null ? "–" : Number((edgeOf(row) ?? 0).toPrecision(6))),
      },
      { id: "words", heading: "In words", isSentence: true, value: edgeText },
    ],
    [],
  );
  return (
    <div className="study-panel">
      <div className="study-choices">
        <ChoiceField
          label="Along"
          value={String(place)}
          choices={asked.inputs.map((_, n) => ({ id: String(n), name: names[n] ?? "" }))}
          onCommit={(id) => setWanted(Number(id))}
        />
      </div>
      <RunPart question={{ run, failure, again }} words="Looking for the edges" />
      {value !== null && failure === null && (
        <div className={isCurrent ? "" : "study-old"}>
          <DataTable
            caption={`Found to ${String(Number(tolerance.toPrecision(1)))} on the exact forecast, all else as planned`}
            columns={columns}
            rows={value}
            rowId={({ sortieId }) => sortieId}
            selectedId={selection?.kind === "sortie" ? selection.id : null}
            onSelect={({ sortieId }) => session.select({ kind: "sortie", id: sortieId })}
            empty="There is no sortie ahead."
          />
        </div>
      )}
    </div>
  );
};
