/** Arrays of numbers cross both ways to the page, the desktop's processes and the browser's door, and stay what they are. */
import { get } from "node:http";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { fromTypedJson } from "../../../app/contract/typed-json.ts";
import { startNodeChild } from "../../../main/service/link/node-child.ts";
import { linkService } from "../../../main/service/link/service-link.ts";
import type { ServiceEvent } from "../../../main/service/service.ts";
import { startTestHost } from "../browser/host.ts";

const child = fileURLToPath(new URL("./arrays-child.ts", import.meta.url));

const levels = new Float64Array([NaN, -0, 0.1, Infinity]);
const counts = new Uint32Array([4_294_967_295]);

/** What came over: of which type, and bit for bit. */
const seen = (value: unknown) => {
  const found = value as { levels: Float64Array; counts: Uint32Array };
  const { buffer, byteOffset, byteLength } = found.levels;
  return {
    types: [found.levels.constructor.name, found.counts.constructor.name],
    levels: [...new Uint8Array(buffer, byteOffset, byteLength)],
    counts: [...found.counts],
  };
};
const sent = seen({ levels, counts });

/** The data of the first event of a stream. */
const firstEvent = (address: string, cookie: string): Promise<string> =>
  new Promise((resolve, reject) => {
    const request = get(address, { headers: { cookie } }, (response) => {
      let text = "";
      response.setEncoding("utf8").on("data", (chunk: string) => {
        text += chunk;
        const data = /^data: (.*)\n\n/m.exec(text)?.[1];
        if (data === undefined) return;
        request.destroy();
        resolve(data);
      });
    });
    request.on("error", reject);
  });

it("between the service's process and the desktop, in answers and in what is known so far", async () => {
  const events: ServiceEvent[] = [];
  const link = linkService(
    () => startNodeChild(process.execPath, child, () => undefined),
    { onEvent: (event) => events.push(event), onNotice: () => undefined },
    () => 0,
  );
  const reply = await link.call("anything", {});
  await link.close();
  expect(seen(reply.ok ? reply.value : null)).toEqual(sent);
  expect(seen(events[0]?.event === "progress" ? events[0].payload.partial : null)).toEqual(sent);
});

it("through the browser's door, in answers and in what is known so far", async () => {
  const rig = await startTestHost((service) => ({
    ...service,
    dispatch: () => Promise.resolve({ ok: true, value: { levels, counts } }),
    listen: (listener) => {
      const timer = setInterval(
        () =>
          listener({
            event: "progress",
            payload: { jobId: "a#1", share: 0.5, words: "Running", partial: { levels, counts } },
          }),
        20,
      );
      return () => clearInterval(timer);
    },
  }));
  try {
    const cookie = await rig.enter();
    const answer = await rig.post("/call", { name: "anything", input: {} });
    expect(seen((fromTypedJson(answer.text) as { value: unknown }).value)).toEqual(sent);
    const told = await firstEvent(`${rig.host.origin}/events?key=${rig.key()}`, cookie);
    expect(seen((fromTypedJson(told) as { partial: unknown }).partial)).toEqual(sent);
  } finally {
    await rig.end();
  }
});
