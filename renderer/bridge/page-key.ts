/**
 * The page's key to the browser host. It comes once behind the # of the address and is kept for this port alone, where
 * no other site and no other port can read it; the host's end makes it worthless.
 */
import { KEY_HEADER, keyOfFragment } from "../../app/contract/page-key.ts";

const PLACE = "coldstock-key";

/** A browser may refuse to keep anything: the key then lasts as long as the page. */
const keep = (key: string): void => {
  try {
    localStorage.setItem(PLACE, key);
  } catch {
    // Kept in memory below all the same.
  }
};

const kept = (): string | null => {
  try {
    return localStorage.getItem(PLACE);
  } catch {
    return null;
  }
};

let inMemory: string | null = null;

/** Takes the key out of the address, so that it does not lie in the history nor in a copied address. Call once, at start. */
export const takePageKey = (): void => {
  const given = keyOfFragment(location.hash);
  if (given === null) return;
  inMemory = given;
  keep(given);
  history.replaceState(null, "", `${location.pathname}${location.search}`);
};

/** null: this page was opened without one; the host will say what to do. */
export const pageKey = (): string | null => inMemory ?? kept();

/** The header that shows it. */
export const keyHeaders = (): Readonly<Record<string, string>> => {
  const key = pageKey();
  return key === null ? {} : { [KEY_HEADER]: key };
};
