/** Answers the page's own requests from the list of built files. There is no other source: no file://, no network. */
import type { FindFile } from "../page/built-files.ts";
import { pageHeaders } from "../page/content-policy.ts";
import { PAGE_HOST, SCHEME } from "./page-address.ts";

const refusal = (status: number, words: string): Response => new Response(words, { status, headers: pageHeaders });

/** The handler for `protocol.handle`. */
export const answerPage =
  (find: FindFile) =>
  (request: { readonly url: string; readonly method: string }): Response => {
    if (request.method !== "GET") return refusal(405, "Only GET is answered here.");
    if (!URL.canParse(request.url)) return refusal(400, "This is not an address.");
    const url = new URL(request.url);
    const file = url.protocol === `${SCHEME}:` && url.host === PAGE_HOST ? find(url.pathname) : undefined;
    if (file === undefined) return refusal(404, "There is no such file.");
    return new Response(file.bytes, { headers: { ...pageHeaders, "content-type": file.type } });
  };
