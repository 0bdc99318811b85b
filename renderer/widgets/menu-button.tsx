/** A button that opens a list of things to do. */
import type { ReactNode } from "react";
import { Menu, MenuItem, MenuTrigger, Popover } from "react-aria-components";
import { Button, type ButtonProps } from "./button.tsx";
import "./choice-field.css";

export interface MenuChoice {
  readonly id: string;
  readonly label: string;
  readonly run: () => void;
  /** Why it cannot be chosen now, in words; null: it can. */
  readonly unable?: string | null;
  readonly isDanger?: boolean;
}

interface MenuButtonProps extends Pick<ButtonProps, "look" | "unable"> {
  readonly label: ReactNode;
  readonly ariaLabel?: string;
  readonly choices: readonly MenuChoice[];
}

export const MenuButton = ({ label, ariaLabel, choices, ...rest }: MenuButtonProps) => {
  const button = (
    <Button {...rest} {...(ariaLabel === undefined ? {} : { "aria-label": ariaLabel })}>
      {label}
      <svg viewBox="0 0 10 10" aria-hidden="true">
        <path d="M2 3.5 5 6.5 8 3.5" />
      </svg>
    </Button>
  );
  // A menu is opened by whatever presses its button: one that cannot be pressed stands alone.
  return (rest.unable ?? null) !== null ? button : <Opened choices={choices}>{button}</Opened>;
};

const Opened = ({ choices, children }: { choices: readonly MenuChoice[]; children: ReactNode }) => (
  <MenuTrigger>
    {children}
    <Popover className="popover" placement="bottom end">
      <Menu
        className="choice-list"
        onAction={(key) => choices.find((choice) => choice.id === key)?.run()}
        disabledKeys={choices.filter((choice) => (choice.unable ?? null) !== null).map((choice) => choice.id)}
      >
        {choices.map((choice) => (
          <MenuItem
            key={choice.id}
            id={choice.id}
            className={choice.isDanger === true ? "choice-item choice-item-danger" : "choice-item"}
          >
            {choice.label}
            {(choice.unable ?? null) !== null && <span className="menu-why">{choice.unable}</span>}
          </MenuItem>
        ))}
      </Menu>
    </Popover>
  </MenuTrigger>
);
