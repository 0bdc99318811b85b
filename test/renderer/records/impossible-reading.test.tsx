/** A reading that cannot be, typed in the window: a question at its field, and nothing is written until it is answered. */
import "../with-dom.ts";
import { screen, waitFor } from "@testing-library/react";
import { afterEach, beforeEach, expect, it } from "vitest";
import { ClosingDialog } from "../../../renderer/records/closing-record.tsx";
import { ReadingDialog } from "../../../renderer/records/reading-record.tsx";
import { withoutPictures } from "../bare-pictures.ts";
import { openPage } from "../planner-page.tsx";

type Page = Awaited<ReturnType<typeof openPage>>;
let page: Page;
beforeEach(() => {
  localStorage.clear();
  withoutPictures();
});
afterEach(async () => {
  await page.close();
});

const type = async (name: string | RegExp, text: string): Promise<void> => {
  const field = screen.getByRole("textbox", { name });
  await page.user.clear(field);
  await page.user.type(field, `${text}{Tab}`);
};
/** What the field says is wrong with it. */
const saidAt = (name: string | RegExp): string =>
  screen.getByRole("textbox", { name }).closest(".form-row")?.textContent ?? "";

it("a far-future date, one before the books open and more than the volume holds are each asked about in place", async () => {
  page = await openPage(
    <ReadingDialog
      request={{ action: "record.reading", subject: { kind: "tank", id: "tarn-hydrogen" } } as never}
      close={() => undefined}
    />,
  );
  await screen.findByRole("textbox", { name: "Level" });
  const button = (): HTMLElement => screen.getByRole("button", { name: "Record reading" });
  const revision = page.revision();
  await type("Level", "5600");
  await type("Read", "2131-06-03");
  await waitFor(() => expect(saidAt("Read")).toMatch(/lies after the end of every plan case, .*: is its year right\?/));
  expect(button().hasAttribute("aria-disabled")).toBe(true);
  await type("Read", "2001-06-03");
  await waitFor(() => expect(saidAt("Read")).toMatch(/books of .* open on .*lies before/));
  expect(button().hasAttribute("aria-disabled")).toBe(true);
  await type("Read", "2031-06-03");
  await waitFor(() => expect(button().hasAttribute("aria-disabled")).toBe(false));
  await type("Level", "900000");
  await waitFor(() => expect(saidAt("Level")).toMatch(/with its whole volume full; .* cannot be in it/));
  expect(button().hasAttribute("aria-disabled")).toBe(true);
  expect(page.revision()).toBe(revision);
});

it("boil-off booked to date asks the same of what was measured, at its own tank", async () => {
  page = await openPage(<ClosingDialog request={{ action: "record.closing" } as never} close={() => undefined} />);
  const fields = await screen.findAllByRole("textbox", { name: "Measured" });
  expect(fields.length).toBeGreaterThan(1);
  await page.user.type(fields[1]!, "900000{Tab}");
  await waitFor(() => expect(fields[1]!.closest(".form-row")?.textContent).toMatch(/cannot be in it/));
  expect(fields[0]!.closest(".form-row")?.textContent).not.toMatch(/cannot be in it/);
  await type("Up to", "2231-06-03");
  await waitFor(() => expect(saidAt("Up to")).toMatch(/is its year right\?/));
});
