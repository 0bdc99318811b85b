/** The inspector: whatever is selected, or what to do when nothing is. */
import { type EntityKind, entityKinds } from "../../app/entity/entities.ts";
import { kindWords } from "../../app/ledger/change-line.ts";
import { NoCase } from "../start/no-case.tsx";
import { useApp } from "../state/use-session.ts";
import { EntityInspector } from "./entity-inspector.tsx";
import { findRow } from "../names/entity-words.ts";
import { NothingSelected } from "./nothing-selected.tsx";
import { EntryInspector } from "./entry-inspector.tsx";
import { ManyInspector } from "./many/many-inspector.tsx";
import { ReadingInspector } from "./reading-inspector.tsx";
import "./inspector.css";

const isEntityKind = (kind: string): kind is EntityKind => entityKinds.some((known) => known === kind);

export const Inspector = () => {
  const selection = useApp((state) => state.selection);
  const current = useApp((state) => state.current);
  const many = useApp((state) => state.many);
  const cases = useApp((state) => state.ledger?.planCases);
  if (cases?.length === 0) return <NoCase />;
  if (current === null) return null;
  if (selection === null) return <NothingSelected plan={current.plan} />;
  if (many.length > 1) return <ManyInspector plan={current.plan} many={many} />;
  const { kind, id } = selection;
  if (kind === "entry") return <EntryInspector key={id} entryId={id} plan={current.plan} />;
  if (kind === "reading") return <ReadingInspector key={id} readingId={id} view={current.view} />;
  if (!isEntityKind(kind)) return null;
  const row = kind === "planCase" ? cases?.find((planCase) => planCase.id === id) : findRow(current.plan, kind, id);
  if (row === undefined)
    return (
      <article className="inspector">
        <p className="form-advice">The {kindWords[kind]} selected before is not in this plan case.</p>
      </article>
    );
  return <EntityInspector key={`${kind}/${id}`} kind={kind} row={row} current={current} />;
};
