/** Yes or no, with its words beside it. */
import type { ReactNode } from "react";
import { Checkbox } from "react-aria-components";
import { READ_ONLY } from "./unable.ts";
import "./check-field.css";

interface CheckFieldProps {
  readonly isOn: boolean;
  readonly onCommit: (isOn: boolean) => void;
  readonly isReadOnly?: boolean;
  readonly children: ReactNode;
}

export const CheckField = ({ isOn, onCommit, isReadOnly = false, children }: CheckFieldProps) => (
  <Checkbox
    className="check-field"
    isSelected={isOn}
    onChange={onCommit}
    isDisabled={isReadOnly}
    // eslint-disable-next-line jsx-a11y/label-has-associated-control -- it is wrapped around the box that it is given
    render={(dom) => <label {...dom} title={isReadOnly ? READ_ONLY : undefined} />}
  >
    <span className="check-box">
      <svg viewBox="0 0 14 14" aria-hidden="true">
        <path d="M3 7.5 6 10.5 11.5 4" />
      </svg>
    </span>
    <span>{children}</span>
  </Checkbox>
);
