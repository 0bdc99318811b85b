/** What a page does through the browser host: demonstration, list, upload, document, events, an orderly end. */
import { readFileSync } from "node:fs";
import { get as listen } from "node:http";
import { connect } from "node:net";
import { afterEach, beforeEach, expect, it } from "vitest";
import type { HeldFile, LedgerChoice } from "../../../app/contract/bridge.ts";
import { documentText } from "../../../app/exchange/ledger-document.ts";
import { startTestHost, type TestHost } from "./host.ts";

let site: TestHost;
let cookie: string;
beforeEach(async () => {
  site = await startTestHost();
  cookie = await site.enter();
});
afterEach(() => site.end());

interface Ok {
  readonly ok: boolean;
  readonly value: { readonly fileName: string; readonly programme: string };
}
const bytesType = { "content-type": "application/octet-stream" };
const ask = async (path: string, body: unknown, more?: Record<string, string>): Promise<Ok> =>
  JSON.parse((await site.post(path, body, more)).text) as Ok;

it("opens the demonstration, and the same file the next time", async () => {
  const first = await ask("/host/openDemonstration", ["tarn"]);
  expect(first).toMatchObject({ ok: true, value: { fileName: "Tarn demonstration.coldstock", isDemonstration: true } });
  await ask("/call", { name: "ledger.asOf", input: { asOfAt: 1940000000000 } });
  await ask("/host/openDemonstration", ["beck"]);
  expect(await ask("/host/openDemonstration", ["tarn"])).toMatchObject({ value: { asOfAt: 1940000000000 } });
});

it("makes ledgers that take no other's place, lists them, opens one by its token", async () => {
  expect((await ask("/host/createLedger", ["Ridge: north/south"])).value.fileName).toBe("Ridge north south.coldstock");
  expect((await ask("/host/createLedger", ["Ridge: north/south"])).value.fileName).toBe(
    "Ridge north south 2.coldstock",
  );
  const list = (await ask("/host/ledgers", [])).value as unknown as readonly LedgerChoice[];
  expect(list.map(({ name }) => name).sort()).toEqual(["Ridge north south 2.coldstock", "Ridge north south.coldstock"]);
  const first = list.find(({ name }) => name === "Ridge north south.coldstock")!;
  expect((await ask("/host/openLedger", [first.token])).value.fileName).toBe("Ridge north south.coldstock");
});

it("takes an uploaded ledger file, and keeps nothing of one that is no ledger", async () => {
  await ask("/host/createLedger", ["Made here"]);
  // Another one open, so that the file is closed and whole.
  await ask("/host/openDemonstration", ["beck"]);
  const bytes = readFileSync(site.test.path("Made here"));
  const taken = await ask("/ledger-file?name=From%20elsewhere.coldstock", bytes, bytesType);
  expect(taken.value).toMatchObject({ fileName: "From elsewhere.coldstock", programme: "Made here" });
  const refused = await ask("/ledger-file?name=..%2F..%2Fevil.coldstock", Buffer.from("not a database"), bytesType);
  expect(refused).toMatchObject({ ok: false, failure: { code: "not a ledger" } });
  const names = ((await ask("/host/ledgers", [])).value as unknown as readonly LedgerChoice[]).map(({ name }) => name);
  expect(names.filter((name) => name.includes("evil"))).toEqual([]);
  expect((await ask("/call", { name: "ledger.info", input: {} })).value.fileName).toBe("From elsewhere.coldstock");
});

it("makes a ledger of an uploaded document", async () => {
  await ask("/host/openDemonstration", ["beck"]);
  const exported = await site.test.service.call("ledger.export", {});
  if (!exported.ok) throw new Error(exported.failure.message);
  const taken = await ask("/ledger-document?name=copy.json", documentText(exported.value), bytesType);
  expect(taken.value).toMatchObject({ fileName: "copy.coldstock", programme: exported.value.programme });
});

it("looks at another office's ledger apart from the ledgers, keeps the latest alone, and lists none of it", async () => {
  await ask("/host/openDemonstration", ["beck"]);
  const exported = await site.test.service.call("ledger.export", {});
  if (!exported.ok) throw new Error(exported.failure.message);
  const upload = async (name: string) =>
    (await ask(`/other-ledger?name=${name}`, documentText(exported.value), bytesType)) as unknown as {
      readonly value: HeldFile;
    };
  const first = (await upload("south.json")).value;
  expect(first.name).toBe("south.json");
  const choices = { decisions: [], takeCases: [] };
  expect(await ask("/host/previewMerge", [first.token, choices, "merge#1"])).toMatchObject({
    ok: true,
    value: { conflicts: [] },
  });
  const second = (await upload("..%2F..%2Fsouth.json")).value;
  expect(second.name).toBe("south.json");
  expect(await ask("/host/previewMerge", [first.token, choices, "merge#1"])).toMatchObject({ ok: false });
  expect(await ask("/host/previewMerge", [second.token, choices, "merge#1"])).toMatchObject({ ok: true });
  expect(await ask("/call", { name: "merge.preview", input: { path: "/etc/passwd", ...choices } })).toMatchObject({
    failure: { code: "forbidden" },
  });
  const list = (await ask("/host/ledgers", [])).value as unknown as readonly LedgerChoice[];
  expect(list.map(({ name }) => name)).toEqual(["Beck demonstration.coldstock"]);
});

it("tells every listening page of a change, and a new listener where the ledger stands", async () => {
  await ask("/host/openDemonstration", ["beck"]);
  const heard = await new Promise<string>((resolve, reject) => {
    let text = "";
    const stream = listen(
      `${site.host.origin}/events?key=${site.key()}`,
      { headers: { cookie }, agent: false },
      (response) => {
        expect(response.headers["content-type"]).toBe("text/event-stream");
        response.setEncoding("utf8").on("data", (chunk: string) => {
          text += chunk;
          if (text.split("event: changed").length === 2 && !text.includes('"revision":1'))
            void ask("/call", { name: "ledger.asOf", input: { asOfAt: 1970000000000 } });
          if (!text.includes('"revision":1')) return;
          resolve(text);
          stream.destroy();
        });
      },
    );
    stream.on("error", reject);
  });
  expect(heard).toMatch(/^retry: 1000\n\nevent: changed\ndata: \{"revision":0,"path":"[^"]+"\}\n\n/);
});

it("ends at once though a browser holds a connection on which it asked nothing yet, and after the answers that run", async () => {
  const { hostname, port } = new URL(site.host.origin);
  const unused = connect(Number(port), hostname);
  unused.on("error", () => undefined);
  await new Promise((resolve) => unused.once("connect", resolve));
  const kept = ask("/host/openDemonstration", ["tarn"]);
  // So that the question has arrived: the host says nothing of one before it has an answer.
  await ask("/call", { name: "ledger.info", input: {} });
  const ended = site.host.close().then(() => "ended" as const);
  const gone = new Promise((resolve) => unused.once("close", resolve)).then(() => "gone" as const);
  const waited = new Promise<"waits">((resolve) => setTimeout(resolve, 20_000, "waits").unref());
  expect(await Promise.race([gone, waited])).toBe("gone");
  expect(await Promise.race([ended, waited])).toBe("ended");
  expect(await kept).toMatchObject({ ok: true });
});
