/** Code bundled as it ships, for benches: run as written, its constants would be looked up at each step. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "vite";
import { constants } from "../../main/bundle-options.ts";

/** One file that holds a bundle. */
export interface BundledFile {
  readonly path: string;
  /** Loads it; each time anew, as if nothing had run of it yet: what the compiler makes of it differs from time to time. */
  load(): Promise<unknown>;
}

/** Bundles a module into one file and gives it to `use`. */
export const withBundled = async <T>(entry: URL, use: (file: BundledFile) => T | Promise<T>): Promise<T> => {
  const folder = mkdtempSync(join(tmpdir(), "coldstock-bench-"));
  try {
    await build({
      configFile: false,
      logLevel: "silent",
      ssr: { noExternal: true },
      build: {
        ssr: fileURLToPath(entry),
        outDir: folder,
        target: "node24",
        minify: false,
        rollupOptions: {
          ...constants,
          output: { ...constants.output, format: "es", entryFileNames: "bundle.mjs" },
        },
      },
    });
    const path = join(folder, "bundle.mjs");
    let loaded = 0;
    return await use({
      path,
      load: async (): Promise<unknown> => {
        loaded += 1;
        return await import(`${pathToFileURL(path).href}?${loaded}`);
      },
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};
