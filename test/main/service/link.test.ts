/** The link to the service's own process: a real process, killed for real, comes back with its ledger. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { LedgerInfo } from "../../../app/ledger/ledger-view.ts";
import type { Child } from "../../../main/service/link/child.ts";
import { startNodeChild } from "../../../main/service/link/node-child.ts";
import { linkService, RESTARTED, type ServiceLink } from "../../../main/service/link/service-link.ts";
import type { ServiceEvent } from "../../../main/service/service.ts";
import { serviceProgram } from "../../suite/programs.ts";

let folder: string;
let link: ServiceLink;
let children: Child[];
let events: ServiceEvent[];
let notices: [string, boolean][];
let noticed: () => void;

const nextNotice = (): Promise<void> => new Promise((resolve) => (noticed = resolve));
const info = async (): Promise<LedgerInfo> => {
  const reply = await link.call("ledger.info", {});
  if (!reply.ok) throw new Error(reply.failure.message);
  return reply.value as LedgerInfo;
};

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-link-"));
  children = [];
  events = [];
  notices = [];
  noticed = () => undefined;
  link = linkService(
    () => {
      const child = startNodeChild(process.execPath, serviceProgram, () => undefined);
      children.push(child);
      return child;
    },
    {
      onEvent: (event) => events.push(event),
      onNotice: (words, isOver) => {
        notices.push([words, isOver]);
        noticed();
      },
    },
    () => 0,
  );
});
afterEach(async () => {
  await link.close();
  rmSync(folder, { recursive: true, force: true });
});

const make = () => link.call("ledger.demo", { path: join(folder, "beck.coldstock"), which: "beck" });

describe("a service that is killed", () => {
  it("is started again on the same ledger, with every acknowledged change, and says so", async () => {
    await make();
    const set = await link.call("ledger.asOf", { asOfAt: 1970000000000 });
    expect(set.ok).toBe(true);
    const told = nextNotice();
    children[0]!.kill();
    await told;
    expect(notices).toEqual([[RESTARTED, false]]);
    expect((await info()).asOfAt).toBe(1970000000000);
    expect(children).toHaveLength(2);
  });

  it("answers what was under way with a failure that says what to do", async () => {
    await make();
    const pending = link.call("ledger.verify", {});
    children[0]!.kill();
    const reply = await pending;
    // Killed before or after it answered; never no answer.
    expect(reply.ok || /do it again/.test(reply.failure.message)).toBe(true);
  });

  it("takes calls made while it is away", async () => {
    await make();
    children[0]!.kill();
    const told = nextNotice();
    await told;
    expect((await info()).fileName).toBe("beck.coldstock");
  });

  it("is not started for ever", async () => {
    for (let death = 1; death <= 3; death += 1) {
      const told = nextNotice();
      children.at(-1)!.kill();
      await told;
    }
    expect(notices.map(([, isOver]) => isOver)).toEqual([false, false, true]);
    expect(children).toHaveLength(3);
    expect(await link.call("ledger.info", {})).toMatchObject({ ok: false, failure: { code: "storage" } });
  });
});

describe("the link", () => {
  it("carries NaN as NaN, so that the door can refuse it", async () => {
    await make();
    expect(await link.call("ledger.asOf", { asOfAt: NaN })).toMatchObject({ failure: { field: "asOfAt" } });
  });

  it("refuses what cannot cross", async () =>
    expect(await link.call("ledger.info", { call: () => 1 })).toMatchObject({ failure: { code: "invalid input" } }));

  it("hears events", async () => {
    await make();
    expect(events[0]).toMatchObject({ event: "changed", payload: { path: join(folder, "beck.coldstock") } });
  });

  it("closes: the process goes, the file is left clean, nothing is started again", async () => {
    await make();
    await link.close();
    expect(children).toHaveLength(1);
    expect(notices).toEqual([]);
  });
});
