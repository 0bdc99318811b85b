/** What can be done with an item, at the place where it was asked for. */
import { useRef } from "react";
import { Menu, MenuItem, Popover } from "react-aria-components";
import type { ActionId } from "../../../app/contract/actions.ts";
import { acceleratorText } from "../../actions/accelerator.ts";
import { actionOf } from "../../actions/registry.ts";
import { useActionStates, useActions } from "../../actions/use-actions.ts";
import { useSession } from "../../state/use-session.ts";

export interface MenuAsked {
  readonly kind: "flight" | "sortie";
  readonly x: number;
  readonly y: number;
}

const offered: Readonly<Record<MenuAsked["kind"], readonly ActionId[]>> = {
  flight: ["record.departure", "record.arrival", "record.loss", "edit.duplicate", "edit.delete"],
  sortie: ["record.loading", "record.return", "edit.duplicate", "edit.delete"],
};

export const ItemMenu = ({ asked, close }: { asked: MenuAsked; close: () => void }) => {
  const anchor = useRef<HTMLSpanElement>(null);
  const registry = useActions();
  const states = useActionStates();
  const { platform } = useSession().client.host;
  const ids = offered[asked.kind];
  const disabled = ids.filter((id) => states.find((state) => state.id === id)?.isEnabled !== true);
  return (
    <>
      <span ref={anchor} className="menu-anchor" style={{ left: asked.x, top: asked.y }} />
      <Popover triggerRef={anchor} isOpen onOpenChange={(isOpen) => !isOpen && close()} placement="bottom start">
        <Menu
          className="menu-list"
          aria-label="What can be done"
          autoFocus="first"
          disabledKeys={disabled}
          onClose={close}
          onAction={(key) => {
            const id = ids.find((candidate) => candidate === key);
            if (id !== undefined) setTimeout(() => registry.run(id));
          }}
        >
          {ids.map((id) => {
            const { label, accelerator } = actionOf(id);
            return (
              <MenuItem key={id} id={id} textValue={label} className="menu-item">
                <span className="menu-label">{label}</span>
                <kbd>{accelerator === null ? "" : acceleratorText(accelerator, platform)}</kbd>
              </MenuItem>
            );
          })}
        </Menu>
      </Popover>
    </>
  );
};
