/** The built page as a closed list of files: an address either is in the list, letter by letter, or does not exist. */
import { readdirSync, readFileSync } from "node:fs";
import { extname, join, relative, sep } from "node:path";

export interface BuiltFile {
  readonly type: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** Only these endings are ever served. */
const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".ico": "image/x-icon",
  ".woff2": "font/woff2",
  ".woff": "font/woff",
};

const INDEX = "/index.html";

/** Finds a file by the path of its address ("/" is the page itself); undefined: there is none. */
export type FindFile = (addressPath: string) => BuiltFile | undefined;

/** Reads the whole folder once. Throws if the page was not built. */
export const builtFiles = (folder: string): FindFile => {
  const files = new Map<string, BuiltFile>();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const type = types[extname(entry.name)];
    if (!entry.isFile() || type === undefined) continue;
    const path = join(entry.parentPath, entry.name);
    files.set(`/${relative(folder, path).split(sep).join("/")}`, { type, bytes: new Uint8Array(readFileSync(path)) });
  }
  const index = files.get(INDEX);
  if (index === undefined) throw new Error(`The page is not built: ${join(folder, "index.html")} is missing.`);
  return (addressPath) => (addressPath === "/" ? index : files.get(addressPath));
};
