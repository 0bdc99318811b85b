/** The loopback server of the browser host. */
import { createServer, type IncomingMessage, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import type { Reply } from "../../app/ground/failure.ts";
import { toTypedJson } from "../../app/contract/typed-json.ts";
import type { FindFile } from "../page/built-files.ts";
import { pageHeaders } from "../page/content-policy.ts";
import type { Environment } from "../service/environment.ts";
import type { Service } from "../service/service.ts";
import { type DoorKeeper, doorKeeper } from "./door-keeper.ts";
import { showDoor } from "./door-page.ts";
import { eventStreams, eventText } from "./event-streams.ts";
import { postRoutes } from "./routes.ts";
import { runningAnswers } from "./running-answers.ts";

const LOOPBACK = "127.0.0.1";
/** How long an answer that is being written may still take when the host ends; the longest report takes a few seconds. */
const LAST_ANSWERS_MS = 10_000;

export interface BrowserHost {
  /** To be opened in a browser, once; the browser that did may open it again. */
  readonly address: string;
  /** Another such address, for another browser or one that has forgotten everything. */
  newAddress(): string;
  readonly origin: string;
  /** Ends the streams, lets running answers finish, closes the port. The service is the caller's to close. */
  close(): Promise<void>;
}

/** Nothing but this is said to whoever has the cookie alone. */
const WITHOUT_KEY = {
  ok: false,
  failure: {
    code: "forbidden",
    message:
      "This page was opened without the address that Coldstock printed. In the terminal in which it runs, press Enter, and open the new address.",
    field: null,
  },
} as const satisfies Reply<never>;

export interface BrowserParts {
  readonly service: Service;
  readonly page: FindFile;
  /** Where the ledgers are. */
  readonly folder: string;
  readonly environment: Environment;
}

const say = (response: ServerResponse, status: number, words: string): void => {
  // A body that was refused is not read to its end: the connection must not be used again.
  const headers = { ...pageHeaders, "content-type": "text/plain; charset=utf-8", connection: "close" };
  response.writeHead(status, headers).end(`${words}\n`);
};

const sayReply = (
  request: IncomingMessage,
  response: ServerResponse,
  reply: Reply<unknown>,
  environment: Environment,
): void => {
  let text: string;
  try {
    text = toTypedJson(reply);
  } catch (error) {
    const logId = environment.logDefect("an answer", error);
    const message = `The answer cannot be sent. The log has the details under ${logId}.`;
    text = toTypedJson({ ok: false, failure: { code: "defect", message, field: null } });
  }
  const headers = {
    ...pageHeaders,
    "content-type": "application/json; charset=utf-8",
    "cache-control": "no-store",
    // As above, where the body was not read to its end.
    ...(request.complete ? {} : { connection: "close" }),
  };
  response.writeHead(200, headers).end(text);
};

/** Listens on a random free port of the loopback interface alone. */
export const startBrowserHost = async (parts: BrowserParts): Promise<BrowserHost> => {
  const { service, page, folder, environment } = parts;
  const streams = eventStreams();
  const stopListening = service.listen(({ event, payload }) => streams.tell(event, payload));
  const post = postRoutes(service, folder, environment);
  let door: DoorKeeper | null = null;

  const get = (url: URL, response: ServerResponse): void => {
    if (url.pathname === "/events") {
      const stamp = service.stamp();
      // A page that connects again learns whether it is behind.
      const first = stamp === null ? "" : eventText("changed", { revision: stamp.revision, path: stamp.path });
      if (!streams.add(response, first)) say(response, 503, "Too many pages listen already.");
      return;
    }
    const file = page(url.pathname);
    if (file === undefined) {
      say(response, 404, "There is no such file.");
      return;
    }
    const headers = { ...pageHeaders, "content-type": file.type, "cache-control": "no-cache" };
    response.writeHead(200, headers).end(file.bytes);
  };

  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const keeper = door;
    if (keeper === null || !keeper.isOurHost(request.headers)) {
      say(response, 421, "This host answers under its own address alone.");
      return;
    }
    // Put behind the origin, not resolved against it: "//name/" would be another host.
    const target = `http://${LOOPBACK}${request.url ?? "/"}`;
    if (request.url?.startsWith("/") !== true || !URL.canParse(target)) {
      say(response, 400, "This is not an address.");
      return;
    }
    const url = new URL(target);
    const token = url.pathname === "/" ? url.searchParams.get("token") : null;
    if (request.method === "GET" && token !== null) {
      const entry = keeper.enter(token, request.headers);
      if (entry === null) showDoor(response, "used");
      else {
        const cookie = entry.cookie === null ? {} : { "set-cookie": entry.cookie };
        response.writeHead(303, { ...pageHeaders, ...cookie, location: entry.location }).end();
      }
      return;
    }
    if (!keeper.hasCookie(request.headers)) {
      showDoor(response, "stranger");
      return;
    }
    if (request.method === "GET") {
      if (url.pathname !== "/events" || keeper.hasKey(request.headers, url.searchParams.get("key"))) get(url, response);
      else say(response, 403, WITHOUT_KEY.failure.message);
      return;
    }
    if (request.method !== "POST") {
      say(response, 405, "Only GET and POST are answered here.");
      return;
    }
    if (!keeper.isFromOurPage(request.headers)) {
      say(response, 403, "Only Coldstock's own page may ask this.");
      return;
    }
    if (!keeper.hasKey(request.headers, null)) {
      sayReply(request, response, WITHOUT_KEY, environment);
      return;
    }
    const reply = await post(request, url, response);
    if (reply === null) say(response, 404, "There is nothing under this address.");
    else sayReply(request, response, reply, environment);
  };

  const running = runningAnswers();
  const server = createServer((request, response) => {
    running.add(response);
    answer(request, response).catch((error: unknown) => {
      const logId = environment.logDefect("the browser host", error);
      if (response.headersSent) response.destroy();
      else say(response, 500, `Something went wrong inside the program. The log has the details under ${logId}.`);
    });
  });
  await new Promise<void>((resolve, reject) => {
    server.once("error", reject);
    server.listen(0, LOOPBACK, resolve);
  });
  const origin = `http://${LOOPBACK}:${(server.address() as AddressInfo).port}`;
  door = doorKeeper(origin);

  const keeper = door;
  const newAddress = (): string => `${origin}/?token=${keeper.newToken()}`;

  return {
    address: newAddress(),
    newAddress,
    origin,
    close: async () => {
      stopListening();
      streams.close();
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      await running.finished(LAST_ANSWERS_MS);
      // Browsers open connections ahead of need. One on which nothing was asked yet does not count as idle, and would keep
      // the host from ending for as long as a request may take to arrive: a minute and more.
      server.closeAllConnections();
      await closed;
    },
  };
};
