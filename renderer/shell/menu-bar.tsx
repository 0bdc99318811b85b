/** The menus of the browser host, drawn from the same table of actions as the desktop's native menu. */
import { Button, Menu, MenuItem, MenuTrigger, Popover, Separator, Toolbar } from "react-aria-components";
import { type Action, type ActionId, type ActionState, actions, menus } from "../../app/contract/actions.ts";
import { acceleratorText, keysIn } from "../actions/accelerator.ts";
import { useActions, useActionStates } from "../actions/use-actions.ts";
import { useSession } from "../state/use-session.ts";

type Known = Action & { readonly id: ActionId };
const pageActions: readonly Known[] = actions.filter((action) => action.by === "page");

export const MenuBar = () => {
  const states = useActionStates();
  return (
    <header>
      <Toolbar className="menu-bar" aria-label="Menus">
        <span className="menu-title" aria-hidden="true">
          Coldstock
        </span>
        {menus.map((menu) => {
          const offered = pageActions.filter((action) => action.menu === menu);
          return offered.length > 0 && <OneMenu key={menu} name={menu} offered={offered} states={states} />;
        })}
      </Toolbar>
    </header>
  );
};

interface OneMenuProps {
  readonly name: string;
  readonly offered: readonly Known[];
  readonly states: readonly ActionState[];
}

const OneMenu = ({ name, offered, states }: OneMenuProps) => {
  const registry = useActions();
  const stateOf = (id: ActionId) => states.find((state) => state.id === id);
  const greyed = offered.filter((action) => stateOf(action.id)?.isEnabled !== true).map((action) => action.id);
  return (
    <MenuTrigger>
      <Button className="menu-name">{name}</Button>
      <Popover className="popover" placement="bottom start" offset={2}>
        <Menu
          className="menu-list"
          aria-label={name}
          disabledKeys={greyed}
          onAction={(key) => {
            const chosen = offered.find((action) => action.id === key);
            // The menu gives its focus back first, so that a dialog that opens takes it from there.
            if (chosen !== undefined) setTimeout(() => registry.run(chosen.id));
          }}
        >
          {offered.flatMap((action, index) => [
            ...(action.startsGroup && index > 0 ? [<Separator key={`${action.id}-line`} className="menu-line" />] : []),
            <Item key={action.id} action={action} state={stateOf(action.id)} why={registry.reasonOf(action.id)} />,
          ])}
        </Menu>
      </Popover>
    </MenuTrigger>
  );
};

interface ItemProps {
  readonly action: Known;
  readonly state: ActionState | undefined;
  readonly why: string | null;
}

const Item = ({ action, state, why }: ItemProps) => {
  const { platform, kind } = useSession().client.host;
  const keys = keysIn(action, kind);
  const label = state?.label ?? action.label;
  const isOn = state?.isOn === true;
  return (
    <MenuItem id={action.id} textValue={label} className="menu-item">
      <span className="menu-mark" aria-hidden="true">
        {isOn ? (action.form === "choice" ? "•" : "✓") : ""}
      </span>
      <span className="menu-label">
        {label}
        {isOn && <span className="unseen">, on</span>}
        {why !== null && <span className="menu-why">{why}</span>}
      </span>
      <kbd>{keys === null ? "" : acceleratorText(keys, platform)}</kbd>
    </MenuItem>
  );
};
