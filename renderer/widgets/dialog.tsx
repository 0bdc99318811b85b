/** A question over the page: a heading, what is asked, and the ways out. Enter confirms, Escape leaves. */
import { type FormEvent, type MouseEvent, type ReactNode, useLayoutEffect, useRef, useState } from "react";
import { flushSync } from "react-dom";
import { Dialog as AriaDialog, Heading, Modal, ModalOverlay } from "react-aria-components";
import { Button } from "./button.tsx";
import "./dialog.css";

export interface DialogProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
  /** What the confirming button says ("Record arrival"); without it the dialog is only to be read. */
  readonly confirm?: string;
  /** Why it cannot be confirmed now, in words; null: it can. */
  readonly unable?: string | null;
  /** The confirming button destroys something. */
  readonly isDanger?: boolean;
  /** Does it. Answers true when the dialog may close. */
  readonly onConfirm?: () => Promise<boolean> | boolean;
  /** A second way to confirm that keeps the dialog open for one more: does the same checks. */
  readonly another?: { readonly words: string; readonly onPress: () => Promise<boolean> };
  readonly width?: "narrow" | "middle" | "wide" | "broad";
  /** What is wrong with the whole, in words. */
  readonly fault?: string | null;
}

/** The first field that holds what cannot be taken gets the focus; answers whether there is one. */
const focusFault = (form: HTMLElement): boolean => {
  const row = form.querySelector<HTMLElement>(".form-row[data-invalid]");
  row?.querySelector<HTMLElement>("input, textarea, button")?.focus();
  return row !== null;
};

/** What is being typed is taken before it is acted on: leaving a field commits it. */
const commitTyping = (form: HTMLElement): void => {
  const field = document.activeElement;
  const isText = field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement;
  if (isText && form.contains(field)) flushSync(() => field.blur());
};

/**
 * The focus stays in the field while the button is pressed: leaving the field can take away a line of advice, and the
 * button would move from under the pointer before it is let go.
 */
const keepFocus = (event: MouseEvent<HTMLElement>): void => event.preventDefault();

export const Dialog = (props: DialogProps) => {
  const { title, onClose, confirm, width = "middle", fault = null } = props;
  const form = useRef<HTMLFormElement>(null);
  const latest = useRef(props);
  useLayoutEffect(() => {
    latest.current = props;
  });
  const [isBusy, setBusy] = useState(false);
  const why = isBusy ? "It is being done." : (props.unable ?? null);
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (isBusy) return;
    if (form.current !== null) commitTyping(form.current);
    const { onConfirm, unable = null } = latest.current;
    if (onConfirm === undefined || unable !== null) return;
    if (form.current !== null && focusFault(form.current)) return;
    setBusy(true);
    const isDone = await onConfirm();
    setBusy(false);
    if (isDone) onClose();
  };
  const goOn = async (): Promise<void> => {
    if (isBusy || form.current === null) return;
    commitTyping(form.current);
    if (focusFault(form.current)) return;
    setBusy(true);
    await latest.current.another?.onPress();
    setBusy(false);
  };
  return (
    <ModalOverlay className="dialog-overlay" isOpen onOpenChange={(isOpen) => !isOpen && onClose()} isDismissable>
      <Modal className={`dialog-sheet dialog-${width}`}>
        <AriaDialog className="dialog" role={props.isDanger === true ? "alertdialog" : "dialog"}>
          <form ref={form} onSubmit={(event) => void submit(event)} className="dialog-form" noValidate>
            <Heading slot="title" className="dialog-title">
              {title}
            </Heading>
            <div className="dialog-content">{props.children}</div>
            {fault !== null && (
              <p className="form-fault" role="alert">
                {fault}
              </p>
            )}
            <footer className="dialog-foot" onMouseDownCapture={keepFocus}>
              <Button onPress={onClose}>{confirm === undefined ? "Close" : "Cancel"}</Button>
              {props.another !== undefined && (
                <Button unable={why} onPress={() => void goOn()}>
                  {props.another.words}
                </Button>
              )}
              {confirm !== undefined && (
                <Button type="submit" look={props.isDanger === true ? "danger" : "primary"} unable={why}>
                  {confirm}
                </Button>
              )}
            </footer>
          </form>
        </AriaDialog>
      </Modal>
    </ModalOverlay>
  );
};
