/** One input of a study: what is varied, of what, and by which values. */
import { readDate } from "../../app/format/read-date.ts";
import { type InputOffer, inputId } from "../../app/study/offers.ts";
import type { InputAsked, StudyQuantity } from "../../app/study/question.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { valueText } from "../../app/study/shown-figure.ts";
import { quantityWords } from "./quantity-words.ts";
import { ValuesFields } from "./values-fields.tsx";

interface InputPartProps {
  readonly title: string;
  readonly input: InputAsked;
  /** What is not varied elsewhere in the study, and this one. */
  readonly offers: readonly InputOffer[];
  readonly isGrid: boolean;
  readonly onChange: (input: InputAsked) => void;
  /** Absent: it is the only one. */
  readonly onRemove?: () => void;
  readonly asOfAt: number;
  readonly horizonAt: number;
}

export const InputPart = (props: InputPartProps) => {
  const { title, input, offers, isGrid, onChange, onRemove, asOfAt, horizonAt } = props;
  const id = inputId(input);
  const offer = offers.find((one) => one.id === id);
  const quantities = [...new Set(offers.map(({ quantity }) => quantity))];
  const subjects = offers.filter(({ quantity }) => quantity === input.quantity);
  const choose = (one: InputOffer | undefined): void => {
    if (one !== undefined) onChange(one.input);
  };
  return (
    <section className="study-input" aria-label={title}>
      <header className="study-input-head">
        <h2>{title}</h2>
        {onRemove !== undefined && (
          <Button look="quiet" onPress={onRemove} aria-label={`Leave out ${title.toLowerCase()}`}>
            Leave out
          </Button>
        )}
      </header>
      <ChoiceField<StudyQuantity>
        label="Vary"
        value={input.quantity}
        choices={quantities.map((quantity) => ({ id: quantity, name: quantityWords[quantity] }))}
        onCommit={(quantity) => choose(offers.find((one) => one.quantity === quantity))}
      />
      {subjects.some(({ subject }) => subject !== "") && (
        <ChoiceField
          label="Of"
          value={offer?.id ?? null}
          choices={subjects.map((one) => ({ id: one.id, name: one.subject }))}
          onCommit={(chosen) => choose(subjects.find((one) => one.id === chosen))}
        />
      )}
      {input.quantity === "cooler outage" && (
        <InstantField
          label="From"
          value={readDate(input.from, "year first")}
          earliestAt={asOfAt}
          latestAt={horizonAt}
          onCommit={(at) => onChange({ ...input, from: new Date(at).toISOString().slice(0, 16).replace("T", " ") })}
        />
      )}
      {offer === undefined ? (
        <p className="form-fault">This plan case has no such input, or it would do nothing here: choose another.</p>
      ) : (
        <>
          <ValuesFields
            offer={offer}
            values={input.values}
            isGrid={isGrid}
            onChange={(values) => onChange({ ...input, values })}
          />
          {offer.today !== null && (
            <p className="study-today figures">{`In the plan as it is: ${valueText(offer.today, offer.unit, "auto")}`}</p>
          )}
        </>
      )}
    </section>
  );
};
