/**
 * Who may speak with the browser host: the browser that opened the printed address, once; after that the cookie that it
 * was given. Other programs of this machine and other sites in the same browser are kept out.
 */
import { randomBytes, timingSafeEqual } from "node:crypto";
import type { IncomingHttpHeaders } from "node:http";

const COOKIE = "coldstock";

const secret = (): string => randomBytes(32).toString("base64url");

const isSame = (given: string, wanted: string): boolean => {
  const a = Buffer.from(given);
  const b = Buffer.from(wanted);
  return a.length === b.length && timingSafeEqual(a, b);
};

const cookieIn = (header: string | undefined): string | null => {
  for (const pair of header?.split(";") ?? []) {
    const [name, value] = pair.trim().split("=", 2);
    if (name === COOKIE && value !== undefined) return value;
  }
  return null;
};

export interface DoorKeeper {
  /** For the printed address; good for one exchange. */
  readonly token: string;
  /** The Set-Cookie line for the right token, the first time; null: refused. */
  exchange(token: string): string | null;
  hasCookie(headers: IncomingHttpHeaders): boolean;
  /** Whether the request names this host and no other as its own (against names of other sites that lead here). */
  isOurHost(headers: IncomingHttpHeaders): boolean;
  /** Whether a page of ours sent it; a request that changes something must say so. */
  isFromOurPage(headers: IncomingHttpHeaders): boolean;
}

/** `origin`: "http://127.0.0.1:port". */
export const doorKeeper = (origin: string): DoorKeeper => {
  const host = new URL(origin).host;
  const token = secret();
  const cookie = secret();
  let isUsed = false;
  return {
    token,
    exchange: (given) => {
      if (isUsed || !isSame(given, token)) return null;
      isUsed = true;
      return `${COOKIE}=${cookie}; HttpOnly; SameSite=Strict; Path=/`;
    },
    hasCookie: (headers) => {
      const given = cookieIn(headers.cookie);
      return given !== null && isSame(given, cookie);
    },
    isOurHost: (headers) => headers.host === host,
    isFromOurPage: (headers) =>
      headers.origin === origin &&
      (headers["sec-fetch-site"] === undefined || headers["sec-fetch-site"] === "same-origin"),
  };
};
