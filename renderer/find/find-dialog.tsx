/** The line to type in and the list below it: arrows choose, Enter goes there, Escape leaves. */
import { type KeyboardEvent, useEffect, useMemo, useState } from "react";
import { Autocomplete, Input, ListBox, ListBoxItem, SearchField } from "react-aria-components";
import type { JournalEntry } from "../../app/ledger/journal.ts";
import { useActions } from "../actions/use-actions.ts";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { wholeJournal } from "../journal/journal-filter.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { type FindItem, actionItems, caseItems, entryItems, planItems } from "./find-items.ts";
import { jump } from "./jump.ts";
import { MAX_FOUND, matching } from "./matching.ts";
import "./find.css";

/** How long the typing must rest before the journal is asked, ms. */
const REST_MS = 150;
const MAX_ENTRIES = 8;

/** Entries of the whole journal that hold the text; the service looks, so that a long journal stays where it is. */
const useEntries = (typed: string): readonly JournalEntry[] => {
  const session = useSession();
  const [found, setFound] = useState<{ readonly for: string; readonly entries: readonly JournalEntry[] } | null>(null);
  const text = typed.trim();
  useEffect(() => {
    if (text.length < 2) return undefined;
    let isWanted = true;
    const timer = setTimeout(() => {
      void session.client.call("journal.page", { ...wholeJournal, text, limit: MAX_ENTRIES }).then((reply) => {
        if (isWanted && reply.ok) setFound({ for: text, entries: reply.value.entries });
      });
    }, REST_MS);
    return () => {
      isWanted = false;
      clearTimeout(timer);
    };
  }, [session, text]);
  return found !== null && found.for === text ? found.entries : [];
};

const useFound = (typed: string): readonly FindItem[] => {
  const registry = useActions();
  const plan = useApp((state) => state.current?.plan ?? null);
  const cases = useApp((state) => state.ledger?.planCases ?? null);
  const entries = useEntries(typed);
  const items = useMemo(
    () => [
      ...(plan === null ? [] : planItems(plan)),
      ...(cases === null ? [] : caseItems(cases)),
      ...actionItems(registry.states()),
    ],
    [plan, cases, registry],
  );
  return useMemo(
    () => [...matching(items, typed), ...entryItems(entries)].slice(0, MAX_FOUND),
    [items, typed, entries],
  );
};

const sentence = (typed: string, count: number): string => {
  if (typed.trim() === "") return "Type a part of a name. Flights, sorties, craft, tanks, entries, views and commands.";
  if (count === 0) return "Nothing has this name.";
  return count === 1 ? "One found." : `${count} found${count === MAX_FOUND ? ", and perhaps more: type on" : ""}.`;
};

export const FindDialog = ({ close }: DialogProps) => {
  const session = useSession();
  const registry = useActions();
  const [typed, setTyped] = useState("");
  const found = useFound(typed);
  const go = (item: FindItem | undefined): void => {
    if (item === undefined) return;
    close();
    jump(session, registry, item.target);
  };
  /** Enter without a choice goes to the best. */
  const onKey = (event: KeyboardEvent): void => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    const chosen = event.currentTarget.getAttribute("aria-activedescendant");
    if (chosen === null || chosen === "") go(found[0]);
  };
  return (
    <Dialog title="Find" onClose={close}>
      <Autocomplete inputValue={typed} onInputChange={setTyped}>
        <SearchField aria-label="Find by name" autoFocus>
          <Input
            className="field-input find-line"
            autoComplete="off"
            spellCheck={false}
            maxLength={200}
            onKeyDown={onKey}
          />
        </SearchField>
        <output className="form-advice find-count">{sentence(typed, found.length)}</output>
        <ListBox
          className="find-list"
          aria-label="Found"
          items={found}
          onAction={(key) => go(found.find(({ id }) => id === key))}
        >
          {(item) => (
            <ListBoxItem id={item.id} textValue={item.name} className="find-item">
              <span className="find-name">{item.name}</span>
              <span className="find-what">{item.what}</span>
            </ListBoxItem>
          )}
        </ListBox>
      </Autocomplete>
    </Dialog>
  );
};
