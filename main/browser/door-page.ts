/** What a browser is shown that comes without what lets it in: why, and what to do. */
import type { ServerResponse } from "node:http";
import { pageHeaders } from "../page/content-policy.ts";

const page = (title: string, sentences: readonly string[]): string =>
  [
    "<!doctype html>",
    '<html lang="en-GB"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">',
    `<meta name="color-scheme" content="light dark"><title>Coldstock: ${title}</title></head>`,
    `<body><main><h1>${title}</h1>${sentences.map((sentence) => `<p>${sentence}</p>`).join("")}</main></body></html>\n`,
  ].join("");

const NEW_ADDRESS =
  "In the terminal in which Coldstock runs, press Enter: it prints a new address. Open that one in this browser. Nothing is lost; every change was saved as it was made.";

const pages = {
  used: page("This address has been used", [
    "An address opens Coldstock once, in one browser; that browser may open it again as long as Coldstock runs.",
    NEW_ADDRESS,
  ]),
  stranger: page("Coldstock runs here, but not for this browser yet", [
    "It opens only with the address that it printed when it started.",
    NEW_ADDRESS,
  ]),
} as const;

/** Answers 403 with the page. */
export const showDoor = (response: ServerResponse, why: keyof typeof pages): void => {
  // A body that was refused is not read to its end: the connection must not be used again.
  const headers = { ...pageHeaders, "content-type": "text/html; charset=utf-8", connection: "close" };
  response.writeHead(403, headers).end(pages[why]);
};
