/** Files held by the desktop for its page: the page has tokens, the paths stay; only known kinds of file are held. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, it } from "vitest";
import type { HeldFile } from "../../../app/contract/bridge.ts";
import type { Reply } from "../../../app/ground/failure.ts";
import { heldFileMethods } from "../../../main/desktop/held-files.ts";
import { answerHostMethod } from "../../../main/page/door.ts";
import { makeLedgerTokens } from "../../../main/page/ledger-tokens.ts";
import { startTestService, testEnvironment, type TestService } from "../service/test-service.ts";

let folder: string;
let test: TestService;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-held-"));
  test = startTestService();
});
afterEach(async () => {
  await test.end();
  rmSync(folder, { recursive: true, force: true });
});

/** Where the person would put a new ledger, and which other ledger they would choose. */
const hostWith = (chosen: string | null) => {
  const methods = heldFileMethods({
    tokens: makeLedgerTokens(),
    pick: async () => await Promise.resolve(chosen),
    place: async (name) => await Promise.resolve(join(folder, `${name}.coldstock`)),
    call: (name, input) => test.service.dispatch(name, input),
  });
  return async (method: string, ...input: unknown[]) =>
    (await answerHostMethod(methods, method, input, testEnvironment([]))) as Reply<HeldFile>;
};

const file = (name: string, text = ""): string => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};

it("gives a token and a name for a path, and reads by the token", async () => {
  const host = hostWith(null);
  const held = await host("holdDropped", file("rows.csv", "tank,at,kg,sigma kg\n"));
  if (!held.ok) throw new Error(held.failure.message);
  expect(held.value.name).toBe("rows.csv");
  expect(JSON.stringify(held)).not.toContain(folder);
  expect(await host("readHeld", held.value.token)).toEqual({
    ok: true,
    value: { fileName: "rows.csv", base64: Buffer.from("tank,at,kg,sigma kg\n").toString("base64") },
  });
});

it.each([
  ["a file of another kind", () => file("secret.txt"), /secret\.txt is a \.txt file, which is not read here/],
  ["a name without an ending", () => "/etc/passwd", /passwd has no ending that says what it is/],
  ["a folder of such a name", () => (mkdirSync(join(folder, "odd.csv")), join(folder, "odd.csv")), /is not a file/],
  ["a file that is gone", () => join(folder, "gone.json"), /is not a file/],
  ["a file that has no place", () => "", /has no place on the disk/],
])("refuses %s", async (_what, path, words) =>
  expect(await hostWith(null)("holdDropped", path())).toMatchObject({
    ok: false,
    failure: { message: expect.stringMatching(words) as string },
  }),
);

it("refuses a token that it did not give", async () => {
  const host = hostWith(null);
  expect(await host("readHeld", crypto.randomUUID())).toMatchObject({ ok: false, failure: { code: "not found" } });
  expect(await host("readHeld", "/etc/passwd")).toMatchObject({ ok: false, failure: { code: "invalid input" } });
});

it("looks at a chosen ledger and takes its records, both by its token", async () => {
  await test.service.call("ledger.demo", { path: test.path("north"), which: "beck" });
  const exported = await test.service.call("ledger.export", {});
  if (!exported.ok) throw new Error(exported.failure.message);
  const [tank] = exported.value.entities.tank;
  const reading = { id: "gauge", tankId: tank!.id, at: 1_950_000_000_000, massKg: 1, sigmaKg: 1 };
  const theirs = {
    ...exported.value,
    readings: [...exported.value.readings, { ...reading, entryId: null, isWithdrawn: false, note: "" }],
  };
  const host = hostWith(file("south.json", JSON.stringify(theirs)));
  const held = await host("pickOther");
  if (!held.ok) throw new Error(held.failure.message);
  const choices = { decisions: [], takeCases: [] };
  const seen = (await host("previewMerge", held.value.token, choices, "merge#1")) as unknown as Reply<{
    fingerprint: string;
  }>;
  expect(seen).toMatchObject({ ok: true, value: { fileName: "south.json", incomingCount: 1 } });
  if (!seen.ok) return;
  expect(await host("takeMerge", held.value.token, choices, seen.value.fingerprint)).toMatchObject({
    ok: true,
    value: { undoLabel: "Merge records of south.json" },
  });
  expect(await hostWith(null)("pickOther")).toEqual({ ok: true, value: null });
});
