/** An uploaded ledger of another site: held by one host, out of reach of every other on the same folder. */
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, expect, it } from "vitest";
import { otherLedger } from "../../../main/browser/other-ledger.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-other-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

const bytes = Buffer.from("a ledger");

it("stays when a second host starts on the same folder", () => {
  const first = otherLedger(folder);
  const path = first.pathOf(first.keep("theirs.coldstock", bytes).token);
  const second = otherLedger(folder);
  second.keep("others.coldstock", bytes);
  expect(existsSync(path)).toBe(true);
});

it("makes way for the next of the same host", () => {
  const host = otherLedger(folder);
  const path = host.pathOf(host.keep("one.coldstock", bytes).token);
  host.keep("one.coldstock", bytes);
  expect(existsSync(path)).toBe(false);
});

it("is for its owner's eyes alone", () => {
  const host = otherLedger(folder);
  const path = host.pathOf(host.keep("one.coldstock", bytes).token);
  expect([statSync(path).mode & 0o777, statSync(dirname(path)).mode & 0o777]).toEqual([0o600, 0o700]);
});

it("goes when the host that held it has ended", () => {
  const gone = spawnSync(process.execPath, ["-e", "console.log(process.pid)"], { encoding: "utf8" }).stdout.trim();
  mkdirSync(join(folder, "merging", `${gone}-abcdef`), { recursive: true });
  mkdirSync(join(folder, "merging", "of-an-older-form"), { recursive: true });
  otherLedger(folder);
  expect(readdirSync(join(folder, "merging"))).toEqual([]);
});
