/** The filter above the journal: period, account, owner, propellant, subject, text. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { accountKinds } from "../../app/ledger/journal.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { TextField } from "../widgets/text-field.tsx";
import {
  ALL,
  type JournalFilter,
  accountChoices,
  isFiltered,
  ownerChoices,
  propellantChoices,
  subjectChoices,
  wholeJournal,
} from "./journal-filter.ts";

interface FilterBarProps {
  readonly plan: PlanSnapshot;
  readonly filter: JournalFilter;
  readonly onFilter: (filter: JournalFilter) => void;
}

export const FilterBar = ({ plan, filter, onFilter }: FilterBarProps) => {
  const put = (patch: Partial<JournalFilter>): void => onFilter({ ...filter, ...patch, offset: 0 });
  const chosen = (id: string): string | null => (id === ALL ? null : id);
  return (
    <search className="filter-bar" aria-label="Filter the journal">
      <InstantField
        label="From"
        value={filter.fromAt}
        emptyWords="the beginning"
        onCommit={(fromAt) => put({ fromAt })}
        onClear={() => put({ fromAt: null })}
      />
      <InstantField
        label="Until"
        value={filter.untilAt}
        emptyWords="now"
        onCommit={(untilAt) => put({ untilAt })}
        onClear={() => put({ untilAt: null })}
      />
      <ChoiceField
        label="Account"
        value={filter.accountKind ?? ALL}
        choices={accountChoices}
        onCommit={(id) => put({ accountKind: accountKinds.find((kind) => kind === id) ?? null })}
      />
      <ChoiceField
        label="Owner"
        value={filter.ownerId ?? ALL}
        choices={ownerChoices(plan)}
        onCommit={(id) => put({ ownerId: chosen(id) })}
      />
      <ChoiceField
        label="Propellant"
        value={filter.propellantId ?? ALL}
        choices={propellantChoices(plan)}
        onCommit={(id) => put({ propellantId: chosen(id) })}
      />
      <ChoiceField
        label="Subject"
        value={filter.subjectKey ?? ALL}
        choices={subjectChoices(plan)}
        onCommit={(id) => put({ subjectKey: chosen(id) })}
      />
      <TextField label="Text" value={filter.text} most={200} onCommit={(text) => put({ text })} />
      <Button
        look="quiet"
        unable={isFiltered(filter) ? null : "Nothing is filtered: all entries are shown."}
        onPress={() => onFilter(wholeJournal)}
      >
        Clear filter
      </Button>
    </search>
  );
};
