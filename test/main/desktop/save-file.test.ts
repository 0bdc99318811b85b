/** A file saved from the page on the desktop: whole or not at all, by the path that the person chose and no other; and printing. */
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { createLedger } from "../../../db/ledger.ts";
import type { DesktopParts } from "../../../main/desktop/host-methods.ts";
import type { Environment } from "../../../main/service/environment.ts";

const chosen = vi.hoisted(() => ({ path: "", asked: null as unknown, button: 0 }));
vi.mock("electron", () => ({
  dialog: {
    showMessageBox: async () => await Promise.resolve({ response: chosen.button }),
    showSaveDialog: async (_window: unknown, asked: unknown) => {
      chosen.asked = asked;
      return await Promise.resolve({ canceled: chosen.path === "", filePath: chosen.path });
    },
  },
}));

const { desktopMethods } = await import("../../../main/desktop/host-methods.ts");
const { answerHostMethod } = await import("../../../main/page/door.ts");

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-save-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const defects: string[] = [];
const environment: Environment = {
  now: () => 0,
  author: () => "Ada",
  newId: (prefix) => prefix,
  logDefect: (where) => {
    defects.push(where);
    return "logged";
  },
};

/** Printing answers as Electron does: whether, and if not, why. */
const host = async (method: string, input: unknown, printed: readonly [boolean, string] = [true, ""]) => {
  const webContents = { print: (_how: unknown, done: (is: boolean, why: string) => void) => done(...printed) };
  const methods = desktopMethods({
    documentsFolder: join(folder, "documents"),
    window: () => ({ webContents }),
  } as unknown as DesktopParts);
  return await answerHostMethod(methods, method, input, environment);
};

const save = (bytes: Uint8Array, name = "report.pdf", type = "application/pdf") =>
  host("saveFile", [name, type, Buffer.from(bytes).toString("base64")]);

const everyByte = Uint8Array.from({ length: 256 }, (_, value) => value);

it("writes every byte to the chosen place, and answers with the name alone", async () => {
  chosen.path = join(folder, "chosen.pdf");
  expect(await save(everyByte)).toEqual({ ok: true, value: "chosen.pdf" });
  expect(new Uint8Array(readFileSync(chosen.path))).toEqual(everyByte);
  expect(readdirSync(folder)).toEqual(["chosen.pdf"]);
  expect(chosen.asked).toMatchObject({
    defaultPath: join(folder, "documents", "report.pdf"),
    filters: [{ extensions: ["pdf"] }],
  });
});

it("writes nothing when the person closes the dialog", async () => {
  chosen.path = "";
  expect(await save(everyByte)).toEqual({ ok: true, value: null });
  expect(readdirSync(folder)).toEqual([]);
});

it("writes over no ledger, whatever it is called, and says so", async () => {
  chosen.path = join(folder, "old.pdf");
  createLedger(chosen.path, { programme: "Old" }).close();
  // Also where the person agrees to replace it.
  chosen.button = 1;
  const before = readFileSync(chosen.path);
  expect(await save(everyByte)).toMatchObject({
    ok: false,
    failure: { code: "storage", message: expect.stringMatching(/^old\.pdf is a ledger/) as string },
  });
  expect(readFileSync(chosen.path).equals(before)).toBe(true);
});

it("replaces another file only after the person said so", async () => {
  if (process.platform !== "linux") return;
  chosen.path = join(folder, "old.pdf");
  writeFileSync(chosen.path, "old");
  chosen.button = 0;
  expect(await save(everyByte)).toEqual({ ok: true, value: null });
  expect(readFileSync(chosen.path, "utf8")).toBe("old");
  chosen.button = 1;
  expect(await save(everyByte)).toEqual({ ok: true, value: "old.pdf" });
  expect(new Uint8Array(readFileSync(chosen.path))).toEqual(everyByte);
});

it("leaves nothing behind where the place itself is a folder", async () => {
  chosen.path = join(folder, "place");
  mkdirSync(chosen.path);
  expect(await save(everyByte)).toMatchObject({ ok: false, failure: { code: "storage" } });
  expect(readdirSync(folder)).toEqual(["place"]);
});

it.each([
  ["a name with a folder", ["../report.pdf", "application/pdf", ""]],
  ["an absolute path", ["/etc/passwd", "application/pdf", ""]],
  ["a kind of file that is not on the list", ["run.sh", "application/x-sh", ""]],
  ["what is not base64", ["report.pdf", "application/pdf", "a%"]],
  ["a path too many", ["report.pdf", "application/pdf", "", "/etc/passwd"]],
])("refuses %s without asking the person", async (_what, input) => {
  chosen.asked = null;
  chosen.path = join(folder, "never.pdf");
  expect(await host("saveFile", input)).toMatchObject({ ok: false, failure: { code: "invalid input" } });
  expect(chosen.asked).toBeNull();
  expect(readdirSync(folder)).toEqual([]);
});

it("printing: done, closed by the person, or a failure in words", async () => {
  expect(await host("print", [])).toEqual({ ok: true, value: true });
  expect(await host("print", [], [false, "Print job canceled"])).toEqual({ ok: true, value: false });
  expect(await host("print", [], [false, "no valid printers available"])).toMatchObject({
    ok: false,
    failure: { code: "refused", message: expect.stringMatching(/could not be printed \(no valid printers/) as string },
  });
  expect(defects).toEqual([]);
});
