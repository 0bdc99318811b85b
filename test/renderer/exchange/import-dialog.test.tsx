/** The import dialog on the real service: questions, choices by keyboard, what changes, faults, and that nothing is taken on a guess. */
import "../with-dom.ts";
import { configure, screen, waitFor, within } from "@testing-library/react";
import { afterEach, expect, test } from "vitest";
import { ImportDialog } from "../../../renderer/exchange/import-dialog.tsx";
import { openPage } from "../planner-page.tsx";

// The first file waits for a thread to start and load what reads it.
configure({ asyncUtilTimeout: 50_000 });

let page: Awaited<ReturnType<typeof openPage>>;
let isClosed = false;
afterEach(async () => await page.close());

const open = async () => {
  isClosed = false;
  const request = { action: "file.import.rows", subject: null, at: null } as const;
  page = await openPage(<ImportDialog request={request} close={() => (isClosed = true)} />);
};
const paste = async (text: string) => {
  await page.user.click(screen.getByText("or paste a table"));
  const field = screen.getByLabelText<HTMLTextAreaElement>(/Pasted rows/);
  await page.user.clear(field);
  await page.user.click(field);
  await page.user.paste(text);
  await page.user.click(screen.getByRole("button", { name: "Read the pasted rows" }));
};
const confirm = () => screen.getByRole<HTMLButtonElement>("button", { name: /^Import (all|valid) rows/ });
const flight = (name: string) => page.plan().flights.find((row) => row.name === name);

test("a question keeps the button shut until it is answered by keyboard; then the rows are one step", async () => {
  await open();
  await paste("Flight\tETA\tH2\nPackhorse 9\t2032-02-01\t1.5\n");
  await screen.findByText("In which unit is “H2”?");
  expect(confirm().hasAttribute("aria-disabled")).toBe(true);
  screen.getByRole("button", { name: /Unit of “H2”/ }).focus();
  await page.user.keyboard("{Enter}");
  await screen.findByRole("option", { name: "t" });
  // The last is pounds, the one before it tonnes.
  await page.user.keyboard("{End}{ArrowUp}{Enter}");
  await screen.findByText("1 row: 1 changed.");
  const grid = within(screen.getByRole("grid", { name: /What would change/ }));
  expect(grid.getByText("hydrogen loaded").parentElement?.textContent).toMatch(/→ 1\.50/);
  const revision = page.revision();
  await page.user.click(confirm());
  await page.saved(revision);
  await waitFor(() => expect(isClosed).toBe(true));
  expect(flight("Packhorse 9")).toMatchObject({ arriveAt: Date.UTC(2032, 1, 1) });
  expect(page.store.get().ledger?.undoLabel).toBe("Bring in 1 changed flights");
});

test("a column of no meaning is shown, and left out only when that is said", async () => {
  await open();
  await paste("name\tarrives\thydrogn kg\nPackhorse 9\t2032-02-01\t1500\n");
  await screen.findByText(/“hydrogn kg” means nothing here/);
  expect(confirm().hasAttribute("aria-disabled")).toBe(true);
  await page.user.click(screen.getByRole("button", { name: "Leave “hydrogn kg” out" }));
  await screen.findByText(/Left out: hydrogn kg\./);
  expect(confirm().hasAttribute("aria-disabled")).toBe(false);
  // It can still be said what it is.
  await page.user.click(screen.getByRole("button", { name: /What “hydrogn kg” is/ }));
  await page.user.click(await screen.findByRole("option", { name: "Hydrogen loaded" }));
  await waitFor(() => expect(screen.queryByText(/Left out/)).toBeNull());
});

test("bad rows are told with line and column, and the good ones may be taken alone", async () => {
  await open();
  await paste("name\tarrives\nPackhorse 9\t2032-02-01\nDrover 5\t31 February\n");
  await screen.findByText("2 rows: 1 changed, 1 with errors.");
  const faults = within(screen.getByRole("grid", { name: "1 fault" }));
  expect(faults.getByText(/“31 February” is not a date/)).toBeDefined();
  expect(confirm().hasAttribute("aria-disabled")).toBe(true);
  await page.user.click(screen.getByRole("checkbox", { name: /Leave out the rows with errors/ }));
  expect(confirm().textContent).toBe("Import valid rows");
  expect(confirm().hasAttribute("aria-disabled")).toBe(false);
});

test("what cannot be read at all is said in words", async () => {
  await open();
  await paste('name\tarrives\n"Packhorse 9\t2032-02-01\n');
  expect((await screen.findByRole("alert")).textContent).toMatch(/quotation mark is opened and never closed/);
});

test("a time zone that is not known here is asked about, and what was guessed can be chosen all the same", async () => {
  await open();
  await paste("name\tArrival (CET)\nPackhorse 9\t2032-02-01\n");
  await screen.findByText(/time zone “cet” of “Arrival \(CET\)” is not known here/);
  expect(confirm().hasAttribute("aria-disabled")).toBe(true);
  await page.user.click(screen.getByRole("button", { name: /What “Arrival \(CET\)” is/ }));
  await page.user.click(await screen.findByRole("option", { name: "Arrives" }));
  await screen.findByText("1 row: 1 changed.");
  expect(confirm().hasAttribute("aria-disabled")).toBe(false);
});
