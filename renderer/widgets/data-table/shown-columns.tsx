/** Which columns of a table are shown: chosen from a list above it, and kept for the next time. */
import { Button as AriaButton, ListBox, ListBoxItem, DialogTrigger, Popover } from "react-aria-components";
import { type Column, headingText } from "./column.ts";

interface ShownColumnsProps<R> {
  readonly caption: string;
  readonly columns: readonly Column<R>[];
  readonly hidden: ReadonlySet<string>;
  readonly onChange: (hidden: readonly string[]) => void;
}

/** The first column names the rows and always stays. */
export const ShownColumns = <R,>({ caption, columns, hidden, onChange }: ShownColumnsProps<R>) => {
  const choosable = columns.slice(1);
  const gone = choosable.filter(({ id }) => hidden.has(id)).length;
  return (
    <DialogTrigger>
      <AriaButton className="button button-quiet" aria-label={`Columns of ${caption}`}>
        {gone === 0 ? "Columns" : `Columns: ${gone} not shown`}
      </AriaButton>
      <Popover className="popover" placement="bottom end">
        <ListBox
          className="choice-list"
          aria-label={`Columns of ${caption}`}
          selectionMode="multiple"
          // Otherwise Escape would take every column away instead of closing the list.
          escapeKeyBehavior="none"
          selectedKeys={choosable.filter(({ id }) => !hidden.has(id)).map(({ id }) => id)}
          onSelectionChange={(keys) =>
            onChange(choosable.filter(({ id }) => keys !== "all" && !keys.has(id)).map(({ id }) => id))
          }
        >
          {choosable.map((column) => (
            <ListBoxItem key={column.id} id={column.id} textValue={headingText(column)} className="choice-item">
              {({ isSelected }) => (
                <span className="shown-column">
                  <span className="column-tick" aria-hidden="true">
                    {isSelected ? "✓" : ""}
                  </span>
                  {headingText(column)}
                </span>
              )}
            </ListBoxItem>
          ))}
        </ListBox>
      </Popover>
    </DialogTrigger>
  );
};
