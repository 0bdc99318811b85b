/** A table pasted from elsewhere: the same rows as a file has, cells parted by tabs, commas or semicolons. */
import { useId, useState } from "react";
import { Button } from "../widgets/button.tsx";

interface PasteFieldProps {
  /** What the first line must name, as an example. */
  readonly example: string;
  readonly onTake: (text: string) => void;
}

export const PasteField = ({ example, onTake }: PasteFieldProps) => {
  const id = useId();
  const [text, setText] = useState("");
  return (
    <details className="paste">
      <summary>or paste a table</summary>
      <label htmlFor={id} className="field-label">
        Pasted rows, the first line naming the columns
      </label>
      <textarea
        id={id}
        className="paste-text figures"
        rows={5}
        spellCheck={false}
        placeholder={example}
        value={text}
        onChange={(event) => setText(event.target.value)}
      />
      <Button unable={text.trim() === "" ? "Nothing is pasted yet." : null} onPress={() => onTake(text)}>
        Read the pasted rows
      </Button>
    </details>
  );
};
