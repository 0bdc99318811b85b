/** Every key: those of the actions from their table, and those inside the timeline. */
import { type Action, actions, menus } from "../../app/contract/actions.ts";
import { acceleratorText, keysIn } from "../actions/accelerator.ts";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { useSession } from "../state/use-session.ts";
import { timelineKeys } from "../timeline/timeline-keys.ts";
import { Dialog } from "../widgets/dialog.tsx";

const all: readonly Action[] = actions;

interface KeyRow {
  readonly keys: string;
  readonly words: string;
}

const KeyTable = ({ caption, rows }: { caption: string; rows: readonly KeyRow[] }) => (
  <table className="key-table">
    <caption>{caption}</caption>
    <tbody>
      {rows.map((row) => (
        <tr key={row.keys + row.words}>
          <th scope="row">
            <kbd>{row.keys}</kbd>
          </th>
          <td>{row.words}</td>
        </tr>
      ))}
    </tbody>
  </table>
);

export const KeyboardDialog = ({ close }: DialogProps) => {
  const { platform, kind } = useSession().client.host;
  const rowsOf = (menu: string): readonly KeyRow[] =>
    all
      .filter((action) => action.menu === menu && (kind === "desktop" || action.by === "page"))
      .flatMap((action) => {
        const keys = keysIn(action, kind);
        return keys === null ? [] : [{ keys: acceleratorText(keys, platform), words: action.label.replace("…", "") }];
      });
  return (
    <Dialog title="Keyboard shortcuts" onClose={close} width="wide">
      {/* eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- the list is longer than a small window: keys must scroll it */}
      <section className="key-tables" aria-label="Keys" tabIndex={0}>
        <KeyTable caption="In the timeline" rows={timelineKeys} />
        {menus.map((menu) => {
          const rows = rowsOf(menu);
          return rows.length > 0 && <KeyTable key={menu} caption={menu} rows={rows} />;
        })}
      </section>
    </Dialog>
  );
};
