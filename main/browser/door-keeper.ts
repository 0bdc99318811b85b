/**
 * Who may speak with the browser host: the browser that opened a printed address, with the cookie and the key that it was
 * given. Other programs of this machine and other sites in the same browser are kept out.
 *
 * Two secrets, because a browser sends a cookie to every port of one host name: whatever listens on another port of this
 * machine sees it. The key never travels in a cookie; the page keeps it, bound to this port, and sends it as a header.
 */
import { randomBytes, timingSafeEqual } from "node:crypto";
import type { IncomingHttpHeaders } from "node:http";
import { KEY_HEADER, keyFragment } from "../../app/contract/page-key.ts";

/** How long a browser keeps the cookie, so that closing it locks nobody out. It is worthless when the host has ended. */
const COOKIE_SECONDS = 7 * 86_400;

const secret = (): string => randomBytes(32).toString("base64url");

const isSame = (given: string, wanted: string): boolean => {
  const a = Buffer.from(given);
  const b = Buffer.from(wanted);
  return a.length === b.length && timingSafeEqual(a, b);
};

const cookieIn = (header: string | undefined, wanted: string): string | null => {
  for (const pair of header?.split(";") ?? []) {
    const [name, value] = pair.trim().split("=", 2);
    if (name === wanted && value !== undefined) return value;
  }
  return null;
};

/** Where a browser that was let in goes next, and the cookie that it is to keep (null: it has it already). */
export interface Entry {
  readonly location: string;
  readonly cookie: string | null;
}

export interface DoorKeeper {
  /** A token for an address to be printed; good for one exchange. An earlier one that was not used is void. */
  newToken(): string;
  /**
   * Lets in whoever brings the right token: a new one from anybody, a used one only from the browser that has the cookie.
   * null: refused.
   */
  enter(token: string, headers: IncomingHttpHeaders): Entry | null;
  hasCookie(headers: IncomingHttpHeaders): boolean;
  /** Whether the page's key came along, as a header; `inAddress` where a header cannot be sent (an event stream). */
  hasKey(headers: IncomingHttpHeaders, inAddress: string | null): boolean;
  /** Whether the request names this host and no other as its own (against names of other sites that lead here). */
  isOurHost(headers: IncomingHttpHeaders): boolean;
  /** Whether a page of ours sent it; a request that changes something must say so. */
  isFromOurPage(headers: IncomingHttpHeaders): boolean;
}

/** `origin`: "http://127.0.0.1:port". */
export const doorKeeper = (origin: string): DoorKeeper => {
  const { host, port } = new URL(origin);
  // A name of its own for each port: two hosts would otherwise take each other's cookie away.
  const name = `coldstock-${port}`;
  const cookie = secret();
  const key = secret();
  const used: string[] = [];
  let open: string | null = null;
  const hasCookie = (headers: IncomingHttpHeaders): boolean => {
    const given = cookieIn(headers.cookie, name);
    return given !== null && isSame(given, cookie);
  };
  return {
    newToken: () => (open = secret()),
    enter: (given, headers) => {
      const location = `/${keyFragment(key)}`;
      if (open !== null && isSame(given, open)) {
        used.push(open);
        open = null;
        return {
          location,
          cookie: `${name}=${cookie}; HttpOnly; SameSite=Strict; Path=/; Max-Age=${COOKIE_SECONDS}`,
        };
      }
      return hasCookie(headers) && used.some((token) => isSame(given, token)) ? { location, cookie: null } : null;
    },
    hasCookie,
    hasKey: (headers, inAddress) => {
      const given = headers[KEY_HEADER] ?? inAddress;
      return typeof given === "string" && isSame(given, key);
    },
    isOurHost: (headers) => headers.host === host,
    isFromOurPage: (headers) =>
      headers.origin === origin &&
      (headers["sec-fetch-site"] === undefined || headers["sec-fetch-site"] === "same-origin"),
  };
};
