// @vitest-environment jsdom
/** The page's side of the browser host: every answer is a reply, numbers that JSON cannot carry never leave. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { browserBridge } from "../../../renderer/bridge/browser-bridge.ts";
import { nonFiniteField } from "../../../renderer/bridge/non-finite.ts";

interface Sent {
  readonly address: string;
  readonly init: RequestInit;
}

let sent: Sent[];
let respond: () => Response | Promise<Response>;

class FakeStream extends EventTarget {
  static last: FakeStream | null = null;
  readonly address: string;
  constructor(address: string) {
    super();
    this.address = address;
    FakeStream.last = this;
  }
}

beforeEach(() => {
  sent = [];
  respond = () => Response.json({ ok: true, value: 1 });
  FakeStream.last = null;
  vi.stubGlobal("EventSource", FakeStream);
  vi.stubGlobal("fetch", (address: string, init: RequestInit) => {
    sent.push({ address, init });
    return Promise.resolve().then(respond);
  });
});
afterEach(() => vi.unstubAllGlobals());

describe("a call", () => {
  it("goes out as JSON with its job id, and comes back as it is", async () => {
    expect(await browserBridge().call("supply.check", { planCaseId: "a" }, "job")).toEqual({ ok: true, value: 1 });
    expect(sent[0]?.address).toBe("/call");
    expect(JSON.parse(sent[0]?.init.body as string)).toEqual({
      name: "supply.check",
      input: { planCaseId: "a" },
      jobId: "job",
    });
    expect(sent[0]?.init.headers).toEqual({ "content-type": "application/json" });
  });

  it("with a number that is not finite stays here: as null it would mean the last record", async () => {
    expect(await browserBridge().call("ledger.asOf", { asOfAt: NaN })).toMatchObject({
      ok: false,
      failure: { code: "invalid input", field: "input.asOfAt" },
    });
    expect(sent).toEqual([]);
  });

  it.each([
    ["the host is gone", () => Promise.reject(new TypeError("failed"))],
    ["the answer is no JSON", () => new Response("<html>")],
  ])("is answered in words when %s", async (_words, answer) => {
    respond = answer;
    expect(await browserBridge().call("ledger.info", {})).toMatchObject({
      ok: false,
      failure: { code: "storage", message: expect.stringMatching(/Start it again/) as string },
    });
  });
});

describe("events", () => {
  it("are heard with their payload until one stops listening", () => {
    const heard: unknown[] = [];
    const stop = browserBridge().on("changed", (payload) => heard.push(payload));
    expect(FakeStream.last?.address).toBe("/events?key=");
    const tell = () =>
      FakeStream.last?.dispatchEvent(new MessageEvent("changed", { data: '{"revision":4,"path":"/a"}' }));
    tell();
    stop();
    tell();
    expect(heard).toEqual([{ revision: 4, path: "/a" }]);
  });
});

describe("files", () => {
  const choose = (file: File | null): void => {
    const input = document.querySelector<HTMLInputElement>("input[type=file]");
    Object.defineProperty(input, "files", { value: { item: () => file } });
    input?.dispatchEvent(new Event(file === null ? "cancel" : "change"));
  };

  it("that were not chosen are no failure", async () => {
    const asked = browserBridge().host.pickLedger();
    choose(null);
    expect(await asked).toEqual({ ok: true, value: null });
    expect(sent).toEqual([]);
    expect(document.querySelector("input")).toBeNull();
  });

  it("go to the host under their name", async () => {
    const asked = browserBridge().host.pickLedger();
    choose(new File(["x"], "a b&c.coldstock"));
    await asked;
    expect(sent[0]?.address).toBe("/ledger-file?name=a%20b%26c.coldstock");
  });

  it("of rows are read here as their bytes, whatever they are", async () => {
    const { host } = browserBridge();
    const asked = host.pickRows();
    choose(new File([new Uint8Array([0xff, 0xfe, 0x00])], "a.xlsx"));
    expect(await asked).toEqual({ ok: true, value: { fileName: "a.xlsx", base64: "//4A" } });
  });

  it("of rows that are too large are refused by their size, before a byte of them is read", async () => {
    const asked = browserBridge().host.pickRows();
    const large = new File(["x"], "large.csv");
    Object.defineProperty(large, "size", { value: 1_000_000_000 });
    Object.defineProperty(large, "stream", { value: () => expect.unreachable("it was read") });
    choose(large);
    expect(await asked).toMatchObject({
      ok: false,
      failure: { message: expect.stringMatching(/^large\.csv has 1000 MB; 48 MB at most/) as string },
    });
  });
});

describe("a number that is not finite", () => {
  it.each([
    [{ a: [1, { b: NaN }] }, "a.1.b"],
    [Infinity, ""],
    [[0, -Infinity], "1"],
    [{ a: null, b: "NaN", c: [] }, null],
  ])("in %j is at %j", (value, path) => expect(nonFiniteField(value)).toBe(path));
});
