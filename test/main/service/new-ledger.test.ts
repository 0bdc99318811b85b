/** A new ledger whose first read fails: told as failed, and not there; where it cannot be taken away, that is said. */
import { existsSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import type { LedgerStore } from "../../../app/contract/store.ts";
import { documentText } from "../../../app/exchange/ledger-document.ts";
import { PlanningError } from "../../../app/ground/failure.ts";
import { demoBeck } from "../../../app/demo/beck.ts";
import { revisionIn } from "../../../db/read-only-copy.ts";
import { keepCopies } from "../../../main/copies/keep-copies.ts";
import { databaseFiles } from "../../../main/service/database-files.ts";
import type { LedgerFiles } from "../../../main/service/ledger-files.ts";
import { makeService } from "../../../main/service/service.ts";
import { inlineRunner } from "../../../main/service/work/runner.ts";
import { testEnvironment } from "./test-service.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-new-ledger-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Real files, of which the next new one cannot be read once it is made. */
const startWith = (more: Partial<LedgerFiles> = {}) => {
  let isFailing = false;
  const unreadable = (store: LedgerStore): LedgerStore =>
    isFailing
      ? {
          ...store,
          entities: () => {
            throw new PlanningError("storage", "The disk cannot be read.");
          },
        }
      : store;
  const files: LedgerFiles = {
    ...databaseFiles,
    create: (path, programme) => unreadable(databaseFiles.create(path, programme)),
    fromDocument: (path, document) => unreadable(databaseFiles.fromDocument(path, document)),
    ...more,
  };
  const copies = keepCopies(() => join(folder, "data"), revisionIn);
  const service = makeService({ environment: testEnvironment([]), files, copies, runner: inlineRunner() });
  return { service, fail: () => (isFailing = true), mend: () => (isFailing = false) };
};

test.each([
  ["ledger.create", (path: string) => ({ path, programme: "New" })],
  ["ledger.create", (path: string) => ({ path, programme: "New", copyOf: "beck" as const })],
  ["ledger.demo", (path: string) => ({ path, which: "beck" as const })],
  ["ledger.import", (path: string) => ({ path, text: documentText(demoBeck()) })],
] as const)(
  "%s leaves nothing behind, the ledger before stays open, and the name is free again",
  async (name, inputOf) => {
    const { service, fail, mend } = startWith();
    const [before, path] = [join(folder, "before.coldstock"), join(folder, "new.coldstock")];
    rmSync(before, { force: true });
    expect(await service.dispatch("ledger.create", { path: before, programme: "Before" })).toMatchObject({ ok: true });
    fail();
    const reply = await service.dispatch(name, inputOf(path));
    expect(reply).toMatchObject({ ok: false, failure: { code: "storage", message: "The disk cannot be read." } });
    expect(readdirSync(folder).filter((each) => each.startsWith("new"))).toEqual([]);
    expect(await service.call("ledger.info", {})).toMatchObject({ ok: true, value: { programme: "Before" } });
    mend();
    expect(await service.dispatch(name, inputOf(path))).toMatchObject({ ok: true });
    expect(existsSync(path)).toBe(true);
    await service.close();
    rmSync(path);
  },
);

test("without a ledger before, none is open after", async () => {
  const { service, fail } = startWith();
  fail();
  const path = join(folder, "first.coldstock");
  expect(await service.call("ledger.demo", { path, which: "beck" })).toMatchObject({ ok: false });
  expect(existsSync(path)).toBe(false);
  expect(await service.call("ledger.info", {})).toMatchObject({ ok: false, failure: { code: "no ledger" } });
  await service.close();
});

test("a file that cannot be taken away again is told of", async () => {
  const { service, fail } = startWith({
    takeAway: () => {
      throw new PlanningError("storage", "It may not be removed.");
    },
  });
  fail();
  const path = join(folder, "stays.coldstock");
  const reply = await service.call("ledger.create", { path, programme: "New" });
  expect(reply).toMatchObject({
    ok: false,
    failure: { message: expect.stringMatching(/^The disk cannot be read\. .*its file lies there/) as string },
  });
  expect(existsSync(path)).toBe(true);
  await service.close();
});
