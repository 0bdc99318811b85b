/** How the page of the browser host is given its key, and how it shows it: behind the # of the address, then in a header. */

/** Lower case, as a server sees the names of headers. */
export const KEY_HEADER = "x-coldstock-key";

const BEGINNING = "#key=";

/** What stands behind the address; a browser sends it to no server. */
export const keyFragment = (key: string): string => `${BEGINNING}${key}`;

/** The key in an address's fragment; null: there is none. */
export const keyOfFragment = (fragment: string): string | null =>
  fragment.startsWith(BEGINNING) && fragment.length > BEGINNING.length ? fragment.slice(BEGINNING.length) : null;
