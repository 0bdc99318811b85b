/**
 * The browser host as the crash tests start it: the same wire as the service's own process, but the service lies within
 * the process that serves the page, and what a page may ask comes through its doors over HTTP, as from a page. What names
 * a path is asked of the service itself, as the host does. `node browser-host.js`, started by `service-child.ts`.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { KEY_HEADER, keyOfFragment } from "../../app/contract/page-key.ts";
import { fromTypedJson, toTypedJson } from "../../app/contract/typed-json.ts";
import type { Reply } from "../../app/ground/failure.ts";
import { startBrowserHost } from "../../main/browser/server.ts";
import { isForbiddenToPages } from "../../main/page/door.ts";
import { composeService } from "../../main/service/compose.ts";
import { systemEnvironment } from "../../main/service/environment.ts";
import { parentPort } from "../../main/service/parent-port.ts";

const log = (line: string): void => void process.stderr.write(`${line}\n`);
const folder = mkdtempSync(join(tmpdir(), "coldstock-host-"));
const port = parentPort();
const service = composeService(true, log);
const host = await startBrowserHost({
  service,
  // No page is looked at here.
  page: () => undefined,
  folder,
  environment: systemEnvironment(log),
});

const entered = await fetch(host.address, { redirect: "manual" });
const cookie = entered.headers.getSetCookie()[0]?.split(";")[0] ?? "";
const key = keyOfFragment(new URL(entered.headers.get("location") ?? "/", host.origin).hash) ?? "";

const askAsPage = async (name: unknown, input: unknown): Promise<Reply<unknown>> => {
  const answer = await fetch(`${host.origin}/call`, {
    method: "POST",
    headers: { cookie, [KEY_HEADER]: key, origin: host.origin, "content-type": "application/json" },
    body: toTypedJson({ name, input }),
  });
  return fromTypedJson(await answer.text()) as Reply<unknown>;
};

let isLeaving = false;
const leave = (): void => {
  if (isLeaving) return;
  isLeaving = true;
  void host
    .close()
    .then(() => service.close())
    .finally(() => {
      rmSync(folder, { recursive: true, force: true });
      process.exit(0);
    });
};

port.onMessage((message) => {
  if (message.kind === "close") {
    leave();
    return;
  }
  const { callId, name, input } = message;
  const answer = isForbiddenToPages(name) ? service.dispatch(name, input) : askAsPage(name, input);
  void answer.then((reply) => port.post({ kind: "reply", callId, reply }));
});
port.onGone(leave);
