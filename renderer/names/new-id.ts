/** Ids made from names: what a person can read in a file, and unique. */

const MOST = 64;

/** "South Rim Survey" → "south-rim-survey". */
export const slug = (name: string): string =>
  name
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 40)
    .replace(/-+$/, "");

/** The slug of a name, or of `fallback`; with a number where it is taken. `prefix` (a plan case) stands before it. */
export const uniqueId = (name: string, fallback: string, taken: ReadonlySet<string>, prefix = ""): string => {
  const start = slug(name) || fallback;
  for (let count = 1; ; count += 1) {
    const end = count === 1 ? "" : `-${count}`;
    const id = `${prefix}${start.slice(0, MOST - prefix.length - end.length)}${end}`;
    if (!taken.has(id)) return id;
  }
};

/** "Packhorse 7" → "Packhorse 8"; a name without a number gets " 2". */
export const nextName = (name: string, taken: ReadonlySet<string>): string => {
  const match = /^(.*?)(\d+)$/.exec(name);
  const stem = match?.[1] ?? `${name} `;
  for (let count = match === null ? 2 : Number(match[2]) + 1; ; count += 1) {
    const next = `${stem}${count}`;
    if (!taken.has(next)) return next;
  }
};
