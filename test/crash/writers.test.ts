/** One writer a ledger, across processes that are really separate; and the lock falls when its holder is killed. */
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { askEdit, editsIn, makeSmallLedger } from "./edit-stream.ts";
import { startService } from "./service-child.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-writers-"));
const path = join(folder, "shared.coldstock");
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("a second process may look, is told who holds the ledger, and changes nothing", async () => {
  const writer = startService();
  await makeSmallLedger(writer, path);
  const reader = startService();
  const info = await reader.must("ledger.open", { path });
  expect(info.readOnlyBecause).toMatch(/open in process \d+/);
  expect(await askEdit(reader, 1)).toMatchObject({ ok: false, failure: { code: "read-only" } });

  await writer.must("ledger.info", {});
  expect(await askEdit(writer, 2)).toMatchObject({ ok: true });
  expect(editsIn(await reader.must("ledger.export", {}))).toEqual([2]);

  await writer.kill();
  const next = startService();
  expect((await next.must("ledger.open", { path })).readOnlyBecause).toBeNull();
  expect(await askEdit(next, 3)).toMatchObject({ ok: true });
  await reader.close();
  await next.close();
  expect(readdirSync(folder)).toEqual(["shared.coldstock"]);
});
