/** A button: plain, the one that the form is for, one that destroys, or a quiet one inside text and tables. */
import type { ReactNode } from "react";
import { Button as AriaButton, type ButtonProps as AriaButtonProps } from "react-aria-components";
import "./button.css";

export interface ButtonProps extends Omit<AriaButtonProps, "children" | "className" | "style"> {
  readonly look?: "plain" | "primary" | "danger" | "quiet" | "link";
  readonly children: ReactNode;
}

export const Button = ({ look = "plain", ...rest }: ButtonProps) => (
  <AriaButton {...rest} className={`button button-${look}`} />
);
