/** A disk without room: the step that did not fit is refused in words, everything before it stands, and work goes on. */
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import type { Reply } from "../../app/ground/failure.ts";
import { mountSmallDisk, nodeWithSmallFiles } from "./constrained-node.ts";
import { askEdit, editsIn, makeSmallLedger } from "./edit-stream.ts";
import { composeService } from "../../main/service/compose.ts";
import { systemEnvironment } from "../../main/service/environment.ts";
import { hosts } from "./hosts.ts";
import { openPageDoor } from "./page-door.ts";
import type { ServiceChild } from "./service-child.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-full-"));
const DISK_KIB = 2048;
const FILLER_KIB = 512;
/** Far more than fits. */
const MAX_EDITS = 20_000;

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Edits one after the other until one is refused. */
const editUntilRefused = async (service: ServiceChild) => {
  for (let n = 1; n <= MAX_EDITS; n++) {
    const reply: Reply<unknown> | null = await askEdit(service, n);
    if (reply === null) throw new Error("the service fell over");
    if (!reply.ok) return { refused: n, failure: reply.failure };
  }
  throw new Error("the disk never filled");
};

const upTo = (n: number): readonly number[] => Array.from({ length: n }, (_, index) => index + 1);

describe.each(hosts)("a full disk under $host", ({ host, start }) => {
  const place = join(folder, host);
  const disk = join(place, "disk");
  mkdirSync(disk, { recursive: true });
  const mounted = mountSmallDisk(disk, DISK_KIB);

  it.runIf(mounted !== null)(
    "refuses the step that does not fit, keeps the rest, and goes on when there is room",
    async () => {
      try {
        const filler = join(disk, "filler");
        writeFileSync(filler, Buffer.alloc(FILLER_KIB * 1024));
        const service = start();
        await makeSmallLedger(service, join(disk, "small.coldstock"));
        const { refused, failure } = await editUntilRefused(service);
        expect(failure.code).toBe("storage");
        expect(failure.message).toMatch(/disk is full/i);
        expect(editsIn(await service.must("ledger.export", {}))).toEqual(upTo(refused - 1));

        rmSync(filler);
        expect(await askEdit(service, refused)).toMatchObject({ ok: true });
        expect(await service.must("ledger.verify", {})).toMatchObject({ isSound: true });
        expect(editsIn(await service.must("ledger.export", {}))).toEqual(upTo(refused));
        await service.close();
      } finally {
        mounted?.unmount();
      }
    },
  );

  it("refuses in words where a file may not grow, and the ledger opens whole without the limit", async () => {
    const path = join(place, "limited.coldstock");
    const service = start(nodeWithSmallFiles(place, DISK_KIB));
    await makeSmallLedger(service, path);
    const { refused, failure } = await editUntilRefused(service);
    expect(failure.code).toBe("storage");
    expect(failure.message).toMatch(/^The disk .*\.$/);
    expect(editsIn(await service.must("ledger.export", {}))).toEqual(upTo(refused - 1));
    await service.close();

    const free = start();
    await free.must("ledger.open", { path });
    expect(await free.must("ledger.verify", {})).toMatchObject({ isSound: true });
    expect(await askEdit(free, refused)).toMatchObject({ ok: true });
    await free.close();
  });
});

describe("a full disk under what a page gives to the browser host", () => {
  const disk = join(folder, "given");
  mkdirSync(disk);
  const mounted = mountSmallDisk(disk, DISK_KIB);

  it.runIf(mounted !== null)("is told as a full disk, and nothing of the file is left", async () => {
    const service = composeService(false, () => undefined);
    const door = await openPageDoor(
      service,
      disk,
      systemEnvironment(() => undefined),
    );
    try {
      const bytes = new Uint8Array(2 * DISK_KIB * 1024);
      for (const to of ["ledger-file", "other-ledger"] as const)
        expect(await door.upload(to, "given.coldstock", bytes)).toMatchObject({
          ok: false,
          failure: { code: "storage", message: expect.stringMatching(/^The disk is full\./) as string },
        });
      const left = readdirSync(disk, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
      expect(left).toEqual([]);
    } finally {
      await door.close();
      await service.close();
      mounted?.unmount();
    }
  });
});
