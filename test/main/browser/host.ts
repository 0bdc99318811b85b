/** A browser host over a service and a page of the test's own, and raw requests that no browser would send. */
import { request as send, type IncomingHttpHeaders } from "node:http";
import { KEY_HEADER, keyOfFragment } from "../../../app/contract/page-key.ts";
import { builtFiles } from "../../../main/page/built-files.ts";
import { type BrowserHost, startBrowserHost } from "../../../main/browser/server.ts";
import type { Service } from "../../../main/service/service.ts";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { startTestService, testEnvironment, type TestService } from "../service/test-service.ts";

export interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
}

export interface TestHost {
  readonly host: BrowserHost;
  readonly test: TestService;
  /** Sends exactly these headers; `path` is not normalised. */
  raw(method: string, path: string, headers?: Record<string, string>, body?: string | Buffer): Promise<Answer>;
  /** Exchanges the token; the cookie pair. The key is kept for `post`. */
  enter(): Promise<string>;
  /** The key that came with the cookie. */
  key(): string;
  /** A question as the page asks it. */
  post(path: string, body: unknown, more?: Record<string, string>): Promise<Answer>;
  end(): Promise<void>;
}

/** `around` may put something between the host and the service. */
export const startTestHost = async (
  around: (service: Service) => Service = (service) => service,
): Promise<TestHost> => {
  const test = startTestService();
  const pageFolder = join(test.folder, "page");
  mkdirSync(join(pageFolder, "assets"), { recursive: true });
  writeFileSync(join(pageFolder, "index.html"), "<!doctype html><title>page</title>");
  writeFileSync(join(pageFolder, "assets", "app.js"), "export {};");
  writeFileSync(join(pageFolder, "assets", "notes.txt"), "not of a kind that is served");
  writeFileSync(join(test.folder, "secret.html"), "secret");
  const host = await startBrowserHost({
    service: around(test.service),
    page: builtFiles(pageFolder),
    folder: test.folder,
    environment: testEnvironment([]),
  });
  const { hostname, port, host: ownHost } = new URL(host.origin);
  let cookie = "";
  let key = "";

  const raw: TestHost["raw"] = (method, path, headers = {}, body) =>
    new Promise((resolve, reject) => {
      const request = send(
        { hostname, port, method, path, headers: { host: ownHost, ...headers }, agent: false, setHost: false },
        (response) => {
          let text = "";
          response.setEncoding("utf8").on("data", (chunk: string) => (text += chunk));
          response.on("end", () => resolve({ status: response.statusCode ?? 0, headers: response.headers, text }));
        },
      );
      request.on("error", reject);
      request.end(body);
    });
  const enter = async (): Promise<string> => {
    const { pathname, search } = new URL(host.address);
    const answer = await raw("GET", `${pathname}${search}`);
    cookie = answer.headers["set-cookie"]?.[0]?.split(";")[0] ?? "";
    key = keyOfFragment(new URL(answer.headers.location ?? "/", host.origin).hash) ?? "";
    return cookie;
  };
  return {
    host,
    test,
    raw,
    enter,
    key: () => key,
    post: (path, body, more = {}) =>
      raw(
        "POST",
        path,
        { cookie, [KEY_HEADER]: key, origin: host.origin, "content-type": "application/json", ...more },
        typeof body === "string" || Buffer.isBuffer(body) ? body : JSON.stringify(body),
      ),
    end: async () => {
      await host.close();
      await test.end();
    },
  };
};
