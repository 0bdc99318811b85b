/** One thing of the plan: what it means, its fields, and what can be done with it. */
import { useState } from "react";
import type { Change, Entity, EntityKind } from "../../app/entity/entities.ts";
import { kindWords } from "../../app/ledger/change-line.ts";
import { useAction } from "../actions/use-actions.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { FlightConsequence, SortieConsequence } from "./consequence-lines.tsx";
import { DeleteDialog } from "./delete-dialog.tsx";
import { EntityForm } from "../forms/entity-form.tsx";
import { nameOf, rowsOf } from "../names/entity-words.ts";
import { nextName } from "../names/new-id.ts";
import { withNewId } from "../forms/place-entity.ts";
import { clearOfOriginals, copyMany, fromHereOn, rowsOfMany } from "./many/many-changes.ts";
import { Deselect } from "./deselect.tsx";
import { RecordButtons } from "./record-buttons.tsx";
import { useEntityEdit } from "./use-entity-edit.ts";
import { WhatIfPart } from "../what-if/what-if-part.tsx";
import { READ_ONLY, firstOf } from "../widgets/unable.ts";

interface EntityInspectorProps<K extends EntityKind> {
  readonly kind: K;
  readonly row: Entity<K>;
  readonly current: CaseForecast;
}

export const EntityInspector = <K extends EntityKind>({ kind, row, current }: EntityInspectorProps<K>) => {
  const { plan } = current;
  const session = useSession();
  const edit = useEntityEdit(kind, row, plan);
  const [isDeleting, setDeleting] = useState(false);
  const name = nameOf(plan, kind, row);
  const isCase = kind === "planCase";
  const isTrial = useApp((state) => state.trial !== null);
  const duplicate = async (): Promise<void> => {
    if (kind === "flight" || kind === "sortie") {
      // On its original it could not be told from it.
      const rows = rowsOfMany(plan, [{ kind, id: row.id }]);
      const { changes, copies } = copyMany(plan, rows, clearOfOriginals(plan, rows));
      const copied = await session.edit(`Duplicate ${name}`.slice(0, 120), changes);
      if (copied.ok) session.select(copies[0] ?? null);
      else session.fail(copied.failure);
      return;
    }
    const names = new Set(rowsOf(plan, kind).map((other) => (other as { name?: string }).name ?? ""));
    const { name: own } = row as { readonly name?: string };
    const copy = own === undefined ? row : { ...row, name: nextName(own, names) };
    const placed = withNewId(plan, kind, copy);
    const change = { op: "put", kind, value: placed } as unknown as Change;
    const reply = await session.edit(`Duplicate ${name}`.slice(0, 120), [change]);
    if (reply.ok) session.select({ kind, id: placed.id });
  };
  const unable = firstOf(
    [edit.isReadOnly, READ_ONLY],
    [isCase, "A plan case is copied and deleted from the Plan menu."],
    [isTrial, "End the what-if first, or keep it as a case."],
  );
  useAction("edit.duplicate", () => void duplicate(), { unable });
  useAction("edit.delete", () => setDeleting(true), { unable });
  return (
    <article className="inspector">
      <header className="inspector-head">
        <p className="inspector-kind">
          {kindWords[kind]}
          <Deselect />
        </p>
        <h2>{name}</h2>
        {kind === "flight" && <FlightConsequence flight={row as unknown as Entity<"flight">} current={current} />}
        {kind === "sortie" && <SortieConsequence sortie={row as unknown as Entity<"sortie">} current={current} />}
      </header>
      {edit.fault !== null && (
        <p className="form-fault" role="alert">
          {edit.fault}
        </p>
      )}
      {kind === "flight" && <WhatIfPart flight={row as unknown as Entity<"flight">} />}
      {isTrial ? (
        <p className="form-advice">Keep the what-if as a case, or end it, to change the plan again.</p>
      ) : (
        <EntityForm key={row.id} kind={kind} edit={edit} />
      )}
      {!edit.isReadOnly && !isTrial && (
        <footer className="inspector-foot">
          <RecordButtons kind={kind} row={row} />
          {!isCase && (
            <>
              <Button onPress={() => void duplicate()}>Duplicate</Button>
              {(kind === "flight" || kind === "sortie") && (
                <Button onPress={() => session.selectMany(fromHereOn(plan, { kind, id: row.id }))}>
                  Select this and all after
                </Button>
              )}
              <Button look="danger" onPress={() => setDeleting(true)}>
                Delete…
              </Button>
            </>
          )}
        </footer>
      )}
      {isDeleting && !isCase && (
        <DeleteDialog
          roots={[{ kind, id: row.id }]}
          name={name}
          label={`Delete ${kindWords[kind]} ${name}`}
          onClose={() => setDeleting(false)}
        />
      )}
    </article>
  );
};
