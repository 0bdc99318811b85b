/** The browser host keeps out whoever is not the one browser that opened the printed address. */
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { KEY_HEADER } from "../../../app/contract/page-key.ts";
import { startTestHost, type TestHost } from "./host.ts";

let site: TestHost;
beforeEach(async () => {
  site = await startTestHost();
});
afterEach(() => site.end());

const tokenPath = (): string => {
  const { pathname, search } = new URL(site.host.address);
  return `${pathname}${search}`;
};
const info = { name: "ledger.info", input: {} };

describe("the address", () => {
  it("is of the loopback interface, at a port of its own, with a token that cannot be guessed", () => {
    const url = new URL(site.host.address);
    expect(url.hostname).toBe("127.0.0.1");
    expect(Number(url.port)).toBeGreaterThan(1023);
    expect(url.searchParams.get("token")).toMatch(/^[\w-]{43}$/);
  });

  it("gives a same-site cookie of this port that scripts cannot read, and a key behind the # of an address without the token", async () => {
    const answer = await site.raw("GET", tokenPath());
    expect(answer.status).toBe(303);
    expect(answer.headers.location).toMatch(/^\/#key=[\w-]{43}$/);
    const { port } = new URL(site.host.origin);
    expect(answer.headers["set-cookie"]?.[0]).toMatch(
      new RegExp(`^coldstock-${port}=[\\w-]{43}; HttpOnly; SameSite=Strict; Path=/; Max-Age=604800$`),
    );
    expect(answer.headers.location).not.toContain(answer.headers["set-cookie"]?.[0]?.split(/[=;]/)[1] ?? "none");
  });

  it("is good once", async () => {
    await site.enter();
    const again = await site.raw("GET", tokenPath());
    expect(again.status).toBe(403);
    expect(again.headers["set-cookie"]).toBeUndefined();
    expect(again.text).toMatch(/press Enter: it prints a new address/);
  });

  it("is printed anew on demand; the one before that was not used is then void", async () => {
    const first = tokenPath();
    const { pathname, search } = new URL(site.host.newAddress());
    expect((await site.raw("GET", first)).status).toBe(403);
    expect((await site.raw("GET", `${pathname}${search}`)).status).toBe(303);
  });

  it("opened again by the browser that has the cookie leads to the page", async () => {
    const cookie = await site.enter();
    const again = await site.raw("GET", tokenPath(), { cookie });
    expect([again.status, again.headers.location]).toEqual([303, `/#key=${site.key()}`]);
  });

  it.each(["", "x".repeat(43)])(
    "with the token %j gives the key to nobody, not even with the cookie",
    async (token) => {
      const cookie = await site.enter();
      const answer = await site.raw("GET", `/?token=${token}`, { cookie });
      expect([answer.status, answer.headers.location]).toEqual([403, undefined]);
    },
  );

  it.each(["", "x", "x".repeat(43), "%00"])(
    "with the token %j gives nothing, and does not use up the right one",
    async (token) => {
      expect((await site.raw("GET", `/?token=${token}`)).status).toBe(403);
      expect(await site.enter()).toMatch(/^coldstock-\d+=/);
    },
  );
});

describe("without the cookie", () => {
  it.each(["/", "/index.html", "/assets/app.js", "/events", "/call"])("%s is not to be had", async (path) => {
    const answer = await site.raw("GET", path);
    expect(answer.status).toBe(403);
    expect(answer.text).not.toMatch(/page/);
  });

  it("no question is answered", async () => {
    expect((await site.post("/call", info)).status).toBe(403);
    await site.enter();
    expect((await site.post("/call", info, { cookie: "" })).status).toBe(403);
    const { port } = new URL(site.host.origin);
    expect((await site.post("/call", info, { cookie: `coldstock-${port}=${"x".repeat(43)}` })).status).toBe(403);
    expect((await site.post("/call", info, { cookie: `coldstock-${port}` })).status).toBe(403);
  });
});

describe("with the cookie alone, which every port of this machine is sent", () => {
  const bare = (key: string) => ({ [KEY_HEADER]: key });
  it.each(["", "x".repeat(43), "undefined"])("and the key %j no question is answered", async (key) => {
    await site.enter();
    const answer = await site.post("/call", info, bare(key));
    expect(JSON.parse(answer.text)).toMatchObject({ failure: { code: "forbidden" } });
    expect(answer.text).toMatch(/open the new address/);
    for (const path of ["/host/ledgers", "/host/openDemonstration"])
      expect(JSON.parse((await site.post(path, [], bare(key))).text)).toMatchObject({ failure: { code: "forbidden" } });
  });

  it("no events are told", async () => {
    const cookie = await site.enter();
    expect((await site.raw("GET", "/events", { cookie })).status).toBe(403);
    expect((await site.raw("GET", `/events?key=${"x".repeat(43)}`, { cookie })).status).toBe(403);
  });

  it("the key of another host opens nothing", async () => {
    const other = await startTestHost();
    try {
      await other.enter();
      await site.enter();
      const answer = await site.post("/call", info, bare(other.key()));
      expect(JSON.parse(answer.text)).toMatchObject({ failure: { code: "forbidden" } });
    } finally {
      await other.end();
    }
  });
});

it("two hosts do not take each other's cookie away: a browser keeps both", async () => {
  const other = await startTestHost();
  try {
    const both = `${await site.enter()}; ${await other.enter()}`;
    for (const host of [site, other])
      expect(JSON.parse((await host.post("/call", info, { cookie: both })).text)).toMatchObject({
        failure: { code: "no ledger" },
      });
    expect(new Set(both.split("; ").map((pair) => pair.split("=")[0])).size).toBe(2);
  } finally {
    await other.end();
  }
});

describe("with the cookie", () => {
  let cookie = "";
  beforeEach(async () => {
    cookie = await site.enter();
  });
  const get = (path: string, more: Record<string, string> = {}) => site.raw("GET", path, { cookie, ...more });

  it("the page and its files come with the policy and nothing for other origins", async () => {
    for (const path of ["/", "/index.html", "/assets/app.js"]) {
      const answer = await get(path);
      expect(answer.status).toBe(200);
      expect(answer.headers["content-security-policy"]).toMatch(/^default-src 'none'; script-src 'self';/);
      expect(answer.headers["x-content-type-options"]).toBe("nosniff");
      expect(Object.keys(answer.headers).filter((name) => name.startsWith("access-control"))).toEqual([]);
    }
  });

  it.each(["localhost", "coldstock.example", "127.0.0.1:1", "127.0.0.1", "[::1]", "127.0.0.1:80@evil.example", ""])(
    "the host name %j is not ours",
    async (host) => {
      expect((await get("/", { host })).status).not.toBe(200);
      expect((await site.post("/call", info, { host })).status).not.toBe(200);
    },
  );

  it.each([
    ["a missing origin", {}],
    ["another site", { origin: "https://evil.example" }],
    ["another port", { origin: "http://127.0.0.1:1" }],
    ["the name localhost", { origin: "http://localhost" }],
    ["no origin worth the name", { origin: "null" }],
  ])("a question from %s is refused", async (_words, headers) => {
    const answer = await site.raw(
      "POST",
      "/call",
      { cookie, [KEY_HEADER]: site.key(), "content-type": "application/json", ...headers },
      JSON.stringify(info),
    );
    expect(answer.status).toBe(403);
  });

  it.each(["cross-site", "same-site", "none"])("a question that the browser calls %s is refused", async (from) =>
    expect((await site.post("/call", info, { "sec-fetch-site": from })).status).toBe(403),
  );

  it("a question from the page is answered", async () => {
    const answer = await site.post("/call", info, { "sec-fetch-site": "same-origin" });
    expect(answer.status).toBe(200);
    expect(JSON.parse(answer.text)).toMatchObject({ ok: false, failure: { code: "no ledger" } });
  });

  it.each([
    "/../secret.html",
    "/..%2fsecret.html",
    "/%2e%2e/secret.html",
    "/assets/../../secret.html",
    "/assets/..\\..\\secret.html",
    "//secret.html",
    "/etc/passwd",
    "/index.html/",
    "http://127.0.0.1/",
    "http://evil.example/",
    "*",
    "/index.html%00.js",
    "/INDEX.HTML",
    "/assets/",
    "/assets",
    "/assets/notes.txt",
    "/.env",
  ])("%s does not exist", async (path) => {
    const answer = await get(path);
    expect([400, 404]).toContain(answer.status);
    expect(answer.text).not.toMatch(/secret$|root:/);
  });

  it.each(["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"])("%s is not answered", async (method) => {
    const answer = await site.raw(method, "/call", { cookie, origin: site.host.origin });
    expect([405, 501]).toContain(answer.status);
  });

  it.each(["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", ""])(
    "a question of the type %j, which a form could send, is not read",
    async (type) =>
      expect(JSON.parse((await site.post("/call", info, { "content-type": type })).text)).toMatchObject({
        failure: { code: "invalid input" },
      }),
  );

  it.each(["", "{", "nonsense", "[]", "null", '{"name":1}', '{"name":"ledger.info","input":{},"more":1}'])(
    "the body %j is refused in words",
    async (body) =>
      expect(JSON.parse((await site.post("/call", body)).text)).toMatchObject({ failure: { code: "invalid input" } }),
  );

  it("bytes that are no text are refused", async () =>
    expect(JSON.parse((await site.post("/call", Buffer.from([0xff, 0xfe, 0x80]))).text)).toMatchObject({
      failure: { code: "invalid input" },
    }));

  it("an announced giant is refused before it is sent", async () => {
    const answer = await site
      .raw("POST", "/call", {
        cookie,
        origin: site.host.origin,
        [KEY_HEADER]: site.key(),
        "content-type": "application/json",
        "content-length": "99999999999",
        expect: "100-continue",
      })
      .catch((error: unknown) => ({ text: String(error) }));
    // In words, or by closing the connection on whoever sends on.
    expect(answer.text).toMatch(/larger than 130 MB|ECONNRESET|EPIPE|socket hang up/);
  });

  it("a number too large for a double does not come in as null", async () => {
    await site.post("/host/openDemonstration", ["beck"]);
    const answer = await site.post("/call", '{"name":"ledger.asOf","input":{"asOfAt":1e999}}');
    expect(JSON.parse(answer.text)).toMatchObject({ failure: { code: "invalid input", field: "asOfAt" } });
  });

  it.each(["ledger.open", "ledger.create", "ledger.demo", "ledger.import"])("%s is not for pages", async (name) =>
    expect(JSON.parse((await site.post("/call", { name, input: { path: "/etc/passwd" } })).text)).toMatchObject({
      failure: { code: "forbidden" },
    }),
  );

  it.each(["constructor", "__proto__", "toString", "saveText", "saveFile", "print", "pickLedger"])(
    "there is no host method %s",
    async (method) => {
      const answer = await site.post(`/host/${method}`, []);
      if (answer.status === 200) expect(JSON.parse(answer.text)).toMatchObject({ failure: { code: "not found" } });
      else expect(answer.status).toBe(404);
    },
  );

  it("a token for a ledger is one that was given out, never a path", async () => {
    for (const token of ["/etc/passwd", "../x", "00000000-0000-4000-8000-000000000000"])
      expect(JSON.parse((await site.post("/host/openLedger", [token])).text)).toMatchObject({ ok: false });
  });
});
