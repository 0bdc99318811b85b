/** The field in a cell while it is written. Enter writes and goes down, Tab to the side, Escape leaves all as it was. */
import { type KeyboardEvent, useEffect, useId, useRef } from "react";

export interface CellFieldProps {
  readonly label: string;
  readonly text: string;
  readonly isNumber: boolean;
  readonly isFaulty: boolean;
  readonly choices: readonly string[] | undefined;
  readonly onType: (text: string) => void;
  /** Writes what is typed; `move`: where to go after it. */
  readonly onCommit: (move: { readonly rows: number; readonly columns: number } | null) => void;
  readonly onCancel: () => void;
}

export const CellField = (props: CellFieldProps) => {
  const { label, text, isNumber, isFaulty, choices, onType, onCommit, onCancel } = props;
  const listId = useId();
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => {
    const field = input.current;
    field?.focus();
    field?.setSelectionRange(field.value.length, field.value.length);
  }, []);
  const onKeyDown = (event: KeyboardEvent): void => {
    const move = (rows: number, columns: number): void => {
      event.preventDefault();
      event.stopPropagation();
      onCommit({ rows, columns });
    };
    if (event.nativeEvent.isComposing) return;
    if (event.key === "Enter") move(event.shiftKey ? -1 : 1, 0);
    else if (event.key === "Tab") move(0, event.shiftKey ? -1 : 1);
    else if (event.key === "Escape") {
      event.preventDefault();
      event.stopPropagation();
      onCancel();
    }
  };
  return (
    <>
      <input
        ref={input}
        className={isNumber ? "cell-field cell-number figures" : "cell-field"}
        aria-label={label}
        aria-invalid={isFaulty || undefined}
        autoComplete="off"
        spellCheck={false}
        maxLength={400}
        list={choices === undefined ? undefined : listId}
        value={text}
        onChange={(event) => onType(event.target.value)}
        onKeyDown={onKeyDown}
        onBlur={() => onCommit(null)}
      />
      {choices !== undefined && (
        <datalist id={listId}>
          {choices.map((choice) => (
            <option key={choice}>{choice}</option>
          ))}
        </datalist>
      )}
    </>
  );
};
