/** One writer a ledger, across processes that are really separate; and the lock falls when its holder is killed. */
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { askEdit, editsIn, makeSmallLedger } from "./edit-stream.ts";
import { hosts } from "./hosts.ts";

const root = mkdtempSync(join(tmpdir(), "coldstock-writers-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** Each host beside the other. */
const pairs = hosts.map((one, n) => ({ host: one.host, start: one.start, other: hosts[1 - n] ?? one }));

describe.each(pairs)("a ledger open in $host", ({ start, other }) => {
  it("may be looked at by a second process, which is told who holds it, and changes nothing", async () => {
    const folder = mkdtempSync(join(root, "w-"));
    const path = join(folder, "shared.coldstock");
    const writer = start();
    await makeSmallLedger(writer, path);
    const reader = other.start();
    const info = await reader.must("ledger.open", { path });
    expect(info.readOnlyBecause).toMatch(/open in process \d+/);
    expect(await askEdit(reader, 1)).toMatchObject({ ok: false, failure: { code: "read-only" } });

    await writer.must("ledger.info", {});
    expect(await askEdit(writer, 2)).toMatchObject({ ok: true });
    expect(editsIn(await reader.must("ledger.export", {}))).toEqual([2]);

    await writer.kill();
    const next = start();
    expect((await next.must("ledger.open", { path })).readOnlyBecause).toBeNull();
    expect(await askEdit(next, 3)).toMatchObject({ ok: true });
    await reader.close();
    await next.close();
    expect(readdirSync(folder)).toEqual(["shared.coldstock"]);
  });
});
