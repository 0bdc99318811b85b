/**
 * A button: plain, the one that the form is for, one that destroys, or a quiet one inside text and tables. One that cannot
 * be pressed stays within reach of keyboard and screen reader, and says why.
 */
import type { ReactNode } from "react";
import { Button as AriaButton, type ButtonProps as AriaButtonProps } from "react-aria-components";
import "./button.css";

export interface ButtonProps extends Omit<AriaButtonProps, "children" | "className" | "style" | "isDisabled"> {
  readonly look?: "plain" | "primary" | "danger" | "quiet" | "link";
  /** Why it cannot be pressed now, in words; null: it can. */
  readonly unable?: string | null;
  readonly children: ReactNode;
}

export const Button = ({ look = "plain", unable = null, onPress, ...rest }: ButtonProps) => {
  const className = `button button-${look}`;
  if (unable === null)
    return <AriaButton {...rest} {...(onPress === undefined ? {} : { onPress })} className={className} />;
  return (
    <AriaButton
      {...rest}
      className={className}
      aria-disabled
      // The title is its description; the style sheet shows the same to those who come by keyboard.
      render={(dom) => <button {...dom} title={unable} data-why={unable} />}
    />
  );
};
