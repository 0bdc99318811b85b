/**
 * The browser host's doors as a person and as a hostile page of the same machine meet them: an address opened again, by
 * the same browser and by another; two hosts in one browser; a page on another port that tries every way in.
 */
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { launchChromium, startHost, startInBrowser } from "../harness/browser-start.ts";
import { expect, test } from "../harness/test.ts";
import { standing } from "../harness/timeline.ts";

test("an address opens again in the browser that used it, and tells another what to do", async ({ home }) => {
  const host = await startHost({ home });
  const browser = await launchChromium();
  try {
    const ours = await browser.newContext();
    const page = await ours.newPage();
    await page.goto(host.address);
    await expect(standing(page)).toBeVisible();
    expect(new URL(page.url()).hash).toBe("");
    await page.close();
    const again = await ours.newPage();
    await again.goto(host.address);
    await expect(standing(again)).toBeVisible();
    await again.reload();
    await expect(standing(again)).toBeVisible();

    const other = await (await browser.newContext()).newPage();
    await other.goto(host.address);
    await expect(other.getByRole("heading", { name: "This address has been used" })).toBeVisible();
    await expect(other.getByText("press Enter: it prints a new address")).toBeVisible();
    await other.goto(new URL(host.address).origin);
    await expect(other.getByRole("heading", { name: /not for this browser yet/ })).toBeVisible();
  } finally {
    await browser.close();
    await host.stop();
  }
});

test("two hosts in one browser leave each other alone", async ({ planner, home, ourBrowser }) => {
  await expect(standing(planner.page)).toBeVisible();
  const second = await startInBrowser(await ourBrowser(), { home: join(home, "second") });
  try {
    const { address } = await startHost({ home: join(home, "third") }).then(async (third) => {
      const page = await second.page.context().newPage();
      await page.goto(third.address);
      await expect(standing(page)).toBeVisible();
      await page.close();
      await third.stop();
      return third;
    });
    expect(address).toMatch(/^http:\/\/127\.0\.0\.1:/);
    await second.page.reload();
    await expect(standing(second.page)).toBeVisible();
  } finally {
    await second.close();
  }
});

/** What a page of another port tries; each answers what it could read, or why not. */
const attack = async (origin: string): Promise<readonly string[]> => {
  const tried = async (name: string, work: () => Promise<string>): Promise<string> =>
    `${name}: ${await work().catch(() => "nothing")}`;
  const ask = (path: string, init: RequestInit) => async () => {
    const answer = await fetch(`${origin}${path}`, { credentials: "include", ...init });
    return answer.type === "opaque" ? "nothing" : await answer.text();
  };
  const body = JSON.stringify({ name: "ledger.asOf", input: { asOfAt: null } });
  const loaded = (tag: "img" | "script" | "iframe", path: string) => async () =>
    await new Promise<string>((resolve, reject) => {
      const element = document.createElement(tag);
      element.addEventListener("load", () => resolve(tag === "iframe" ? "nothing" : "loaded"));
      element.addEventListener("error", () => reject(new Error("refused")));
      element.src = `${origin}${path}`;
      document.body.append(element);
    });
  return await Promise.all([
    tried("page", ask("/", {})),
    tried("question", ask("/call", { method: "POST", headers: { "content-type": "application/json" }, body })),
    tried("form", ask("/call", { method: "POST", mode: "no-cors", headers: { "content-type": "text/plain" }, body })),
    tried("host method", ask("/host/openDemonstration", { method: "POST", mode: "no-cors", body: '["beck"]' })),
    tried("script", loaded("script", "/events")),
    tried("picture", loaded("img", "/call")),
    tried("frame", loaded("iframe", "/")),
    tried("upload", ask("/ledger-file?name=x", { method: "POST", mode: "no-cors", body: "x" })),
    tried("token", ask("/?token=guessed", {})),
    tried("events with a guessed key", ask("/events?key=guessed", {})),
    // A form that is sent goes there with the person's cookie; what comes back cannot be read.
    tried("sent form", async () => {
      const frame = Object.assign(document.createElement("iframe"), { name: `f${Math.random()}` });
      const form = Object.assign(document.createElement("form"), {
        action: `${origin}/call`,
        method: "post",
        enctype: "text/plain",
        target: frame.name,
      });
      form.append(Object.assign(document.createElement("input"), { name: body, value: "" }));
      document.body.append(frame, form);
      const shown = new Promise((resolve) => frame.addEventListener("load", resolve));
      form.submit();
      await shown;
      return frame.contentDocument?.body.innerText || "nothing";
    }),
    tried(
      "events",
      async () =>
        await new Promise<string>((resolve, reject) => {
          const stream = new EventSource(`${origin}/events`, { withCredentials: true });
          stream.addEventListener("changed", () => resolve("an event"));
          stream.addEventListener("error", () => reject(new Error("refused")));
        }),
    ),
  ]);
};

test("a page on another port of this machine, in the same browser, gets in by no door of two hosts", async ({
  planner,
  home,
}) => {
  await expect(standing(planner.page)).toBeVisible();
  const second = await startHost({ home: join(home, "second") });
  const beside = await planner.page.context().newPage();
  await beside.goto(second.address);
  await expect(standing(beside)).toBeVisible();
  const origins = [planner.page, beside].map((page) => new URL(page.url()).origin);
  const asked: string[] = [];
  const server = createServer((request, response) => {
    asked.push(request.headers.cookie ?? "");
    response.writeHead(200, { "content-type": "text/html" }).end("<!doctype html><title>another</title><body>");
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  try {
    const page = await planner.page.context().newPage();
    await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
    for (const origin of origins) {
      const results = await page.evaluate(attack, origin);
      expect(results.filter((result) => !result.endsWith(": nothing"))).toEqual([]);
    }
    // Browsers do send both cookies there: that is why they alone open nothing, at either host.
    const stolen = asked.find((cookie) => cookie.includes("coldstock-")) ?? "";
    for (const origin of origins) {
      expect(stolen).toContain(`coldstock-${new URL(origin).port}=`);
      for (const [path, body] of [
        ["/call", JSON.stringify({ name: "ledger.info", input: {} })],
        ["/host/openDemonstration", '["beck"]'],
      ] as const) {
        const answer = await fetch(`${origin}${path}`, {
          method: "POST",
          headers: { cookie: stolen, origin, "content-type": "application/json" },
          body,
        });
        expect(await answer.json()).toMatchObject({ ok: false, failure: { code: "forbidden" } });
      }
      const events = await fetch(`${origin}/events`, { headers: { cookie: stolen } });
      expect(events.status).toBe(403);
      await events.body?.cancel();
    }
    // Nothing came of any of it: neither has another ledger open.
    for (const each of [planner.page, beside]) await expect(each.getByRole("contentinfo")).toContainText("Tarn");
    await beside.reload();
    await expect(standing(beside)).toBeVisible();
  } finally {
    server.close();
    await second.stop();
  }
});
