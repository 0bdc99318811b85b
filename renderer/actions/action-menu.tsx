/** A list of actions at a place of its own: what Shift+F10 or the other mouse button brings up. */
import { useRef } from "react";
import { Menu, MenuItem, Popover } from "react-aria-components";
import type { ActionId } from "../../app/contract/actions.ts";
import { acceleratorText, type Platform } from "./accelerator.ts";
import { actionOf } from "./registry.ts";
import { useActionStates, useActions } from "./use-actions.ts";

interface ActionMenuProps {
  readonly label: string;
  readonly ids: readonly ActionId[];
  readonly platform: Platform;
  /** Pixels within the nearest positioned element. */
  readonly at: { readonly x: number; readonly y: number };
  readonly close: () => void;
}

export const ActionMenu = ({ label, ids, platform, at, close }: ActionMenuProps) => {
  const anchor = useRef<HTMLSpanElement>(null);
  const registry = useActions();
  const states = useActionStates();
  const greyed = ids.filter((id) => states.find((state) => state.id === id)?.isEnabled !== true);
  return (
    <>
      <span ref={anchor} className="menu-anchor" style={{ left: at.x, top: at.y }} />
      <Popover triggerRef={anchor} isOpen onOpenChange={(isOpen) => !isOpen && close()} placement="bottom start">
        <Menu
          className="menu-list"
          aria-label={label}
          autoFocus="first"
          disabledKeys={greyed}
          onClose={close}
          onAction={(key) => {
            const id = ids.find((candidate) => candidate === key);
            // The menu gives its focus back first, so that a dialog that opens takes it from there.
            if (id !== undefined) setTimeout(() => registry.run(id));
          }}
        >
          {ids.map((id) => {
            const { label: words, accelerator } = actionOf(id);
            return (
              <MenuItem key={id} id={id} textValue={words} className="menu-item">
                <span className="menu-label">
                  {words}
                  {greyed.includes(id) && <span className="menu-why">{registry.reasonOf(id)}</span>}
                </span>
                <kbd>{accelerator === null ? "" : acceleratorText(accelerator, platform)}</kbd>
              </MenuItem>
            );
          })}
        </Menu>
      </Popover>
    </>
  );
};
