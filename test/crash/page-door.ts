/** The browser host around a service, asked through its doors over HTTP, as a page asks. */
import { KEY_HEADER, keyOfFragment } from "../../app/contract/page-key.ts";
import { fromTypedJson, toTypedJson } from "../../app/contract/typed-json.ts";
import type { Reply } from "../../app/ground/failure.ts";
import { startBrowserHost } from "../../main/browser/server.ts";
import { isForbiddenToPages } from "../../main/page/door.ts";
import type { Environment } from "../../main/service/environment.ts";
import type { Service } from "../../main/service/service.ts";

export interface PageDoor {
  /** What a page may ask comes through the doors; what names a path is asked of the service itself, as the host does. */
  ask(name: unknown, input: unknown): Promise<Reply<unknown>>;
  /** A file given by the page, to be opened or to be merged. */
  upload(to: "ledger-file" | "other-ledger", fileName: string, bytes: Uint8Array<ArrayBuffer>): Promise<Reply<unknown>>;
  /** The host alone; the service is the caller's. */
  close(): Promise<void>;
}

/** `folder`: where the host keeps its ledgers. */
export const openPageDoor = async (service: Service, folder: string, environment: Environment): Promise<PageDoor> => {
  // No page is looked at here.
  const host = await startBrowserHost({ service, page: () => undefined, folder, environment });
  const entered = await fetch(host.address, { redirect: "manual" });
  const cookie = entered.headers.getSetCookie()[0]?.split(";")[0] ?? "";
  const key = keyOfFragment(new URL(entered.headers.get("location") ?? "/", host.origin).hash) ?? "";
  const post = async (path: string, type: string, body: string | Uint8Array<ArrayBuffer>): Promise<Reply<unknown>> => {
    const headers = { cookie, [KEY_HEADER]: key, origin: host.origin, "content-type": type };
    const answer = await fetch(host.origin + path, { method: "POST", headers, body });
    return fromTypedJson(await answer.text()) as Reply<unknown>;
  };
  return {
    ask: async (name, input) =>
      isForbiddenToPages(name)
        ? await service.dispatch(name, input)
        : await post("/call", "application/json", toTypedJson({ name, input })),
    upload: async (to, fileName, bytes) =>
      await post(`/${to}?name=${encodeURIComponent(fileName)}`, "application/octet-stream", bytes),
    close: host.close,
  };
};
