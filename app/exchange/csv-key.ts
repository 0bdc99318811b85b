/** A key made of a name, for rows that state none. */

const MOST_KEY = 64;

/** "Packhorse 7" → "packhorse-7": the same name gives the same key, so a file read twice changes rows and adds none. */
export const keyFrom = (name: string): string =>
  name
    .normalize("NFKD")
    .toLowerCase()
    .replaceAll(/[^a-z0-9._:-]+/g, "-")
    .replaceAll(/^[^a-z0-9]+|-+$/g, "")
    .slice(0, MOST_KEY);
