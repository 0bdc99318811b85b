// @vitest-environment jsdom
/** Fields: range while typing, commit on Enter and on leaving, Escape back, nothing clamped or lost in silence. */
import { cleanup, render, screen } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { useState } from "react";
import { afterEach, expect, it, vi } from "vitest";
import { Dialog } from "../../../renderer/widgets/dialog.tsx";
import { InstantField } from "../../../renderer/widgets/instant-field.tsx";
import { NoteField } from "../../../renderer/widgets/note-field.tsx";
import { NumberField } from "../../../renderer/widgets/number-field.tsx";

afterEach(cleanup);

const committed = vi.fn<(value: number) => void>();

const Fill = ({ fault = null }: { fault?: string | null }) => {
  const [value, setValue] = useState(1200);
  return (
    <NumberField
      label="Fill"
      unit="kg"
      min={0}
      max={5000}
      step={10}
      value={value}
      fault={fault}
      origin="the class says 1.20 t"
      onCommit={(next) => {
        committed(next);
        setValue(next);
      }}
    />
  );
};

const show = (element: React.ReactElement) => {
  committed.mockClear();
  render(element);
  return userEvent.setup();
};

it("a number field says its unit, its range and where its value came from", () => {
  show(<Fill />);
  const field = screen.getByRole("textbox", { name: "Fill" });
  expect((field as HTMLInputElement).value).toBe("1\u202f200");
  expect(screen.getByText("kg")).toBeTruthy();
  expect(screen.getByText("0 to 5 000 kg")).toBeTruthy();
  expect(screen.getByText("the class says 1.20 t")).toBeTruthy();
});

it("what is out of range is said in words at the field and not committed", async () => {
  const user = show(<Fill />);
  await user.type(screen.getByRole("textbox"), "6000");
  const field = screen.getByRole("textbox");
  expect(screen.getByRole("alert").textContent).toContain("is out of range: 0 to 5\u202f000\u202fkg");
  expect(field.getAttribute("aria-invalid")).toBe("true");
  expect(document.querySelector(`#${field.getAttribute("aria-describedby")?.split(" ")[0] ?? ""}`)).not.toBeNull();
  await user.tab();
  expect(committed).not.toHaveBeenCalled();
  expect((field as HTMLInputElement).value).toBe("6000");
});

it("Enter commits, Escape goes back to what was", async () => {
  const user = show(<Fill />);
  const field = screen.getByRole<HTMLInputElement>("textbox");
  await user.clear(field);
  await user.type(field, "1 500{Enter}");
  expect(committed.mock.calls).toEqual([[1500]]);
  await user.clear(field);
  await user.type(field, "99{Escape}");
  expect(field.value).toBe("1\u202f500");
  await user.tab();
  expect(committed).toHaveBeenCalledTimes(1);
});

it("arrows step, with Shift by ten, and stop at the bounds", async () => {
  const user = show(<Fill />);
  await user.click(screen.getByRole("textbox"));
  await user.keyboard("{ArrowUp}{Shift>}{ArrowDown}{/Shift}{Enter}");
  expect(committed.mock.calls).toEqual([[1110]]);
});

it("a refusal of the service stands at its field", () => {
  show(<Fill fault="The tank holds 900 kg." />);
  expect(screen.getByRole("alert").textContent).toBe("The tank holds 900 kg.");
});

it("an instant is typed as an ISO date; a day that does not exist is refused; arrows move by a day", async () => {
  const user = show(<InstantField label="Departs" value={Date.UTC(2031, 1, 20)} onCommit={committed} />);
  const field = screen.getByRole<HTMLInputElement>("textbox", { name: "Departs" });
  expect(field.value).toBe("2031-02-20");
  await user.clear(field);
  await user.type(field, "2031-02-31{Enter}");
  expect(screen.getByRole("alert").textContent).toContain("“2031-02-31” is not a date");
  expect(committed).not.toHaveBeenCalled();
  await user.clear(field);
  await user.type(field, "2031-02-28 14:05{ArrowUp}{Enter}");
  expect(committed.mock.calls).toEqual([[Date.UTC(2031, 2, 1, 14, 5)]]);
});

it("bounds of an instant are said", async () => {
  const user = show(
    <InstantField
      label="Arrives"
      value={Date.UTC(2031, 1, 20)}
      earliestAt={Date.UTC(2031, 1, 10)}
      onCommit={committed}
    />,
  );
  const field = screen.getByRole("textbox");
  await user.clear(field);
  await user.type(field, "2031-02-09");
  expect(screen.getByRole("alert").textContent).toBe("Too early: not before 2031-02-10.");
});

it("a dialog does not confirm while a field holds what cannot be taken, and leads there", async () => {
  const confirm = vi.fn<() => boolean>(() => true);
  const user = show(
    <Dialog title="Add" confirm="Add" onConfirm={confirm} onClose={() => undefined}>
      <Fill />
    </Dialog>,
  );
  const field = screen.getByRole<HTMLInputElement>("textbox");
  await user.clear(field);
  await user.type(field, "-3");
  await user.click(screen.getByRole("button", { name: "Add" }));
  expect(confirm).not.toHaveBeenCalled();
  expect(document.activeElement).toBe(field);
  await user.clear(field);
  await user.type(field, "30{Enter}");
  expect(confirm).toHaveBeenCalledTimes(1);
});

it("Escape in a touched field leaves the dialog open; the next one closes it", async () => {
  const close = vi.fn<() => void>();
  const user = show(
    <Dialog title="Add" confirm="Add" onConfirm={() => true} onClose={close}>
      <Fill />
    </Dialog>,
  );
  await user.type(screen.getByRole("textbox"), "7{Escape}");
  expect(close).not.toHaveBeenCalled();
  await user.keyboard("{Escape}");
  expect(close).toHaveBeenCalledTimes(1);
});

const Reason = ({ onSend }: { readonly onSend: (reason: string) => void }) => {
  const [reason, setReason] = useState("");
  return (
    <Dialog
      title="Reverse?"
      confirm="Reverse entry"
      onClose={() => undefined}
      onConfirm={() => {
        onSend(reason);
        return true;
      }}
    >
      <NoteField label="Reason" value={reason} onCommit={setReason} />
    </Dialog>
  );
};

it("what stands in a text area last is taken when the button is clicked at once", async () => {
  const sent = vi.fn<(reason: string) => void>();
  const user = show(<Reason onSend={sent} />);
  await user.type(screen.getByRole("textbox", { name: "Reason" }), "read from the wrong gauge");
  await user.click(screen.getByRole("button", { name: "Reverse entry" }));
  expect(sent).toHaveBeenCalledExactlyOnceWith("read from the wrong gauge");
});
