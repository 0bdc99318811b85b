/**
 * The one build description: the programs that run in Node or Electron's main process, the preload script, the page.
 * Everything is bundled but Electron itself, the native database module.
 */
import { cpSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import react from "@vitejs/plugin-react";
import { defineConfig } from "electron-vite";
import { constants } from "./main/bundle-options.ts";
import { collectNotices } from "./main/notices/collect-notices.ts";

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** What is read at run time from beside the program: the database's SQL steps, the typeface of printed reports. */
const copyBeside = {
  name: "copy-beside",
  closeBundle: () => {
    cpSync(here("db/migrations"), here("out/main/migrations"), {
      recursive: true,
      filter: (from) => !from.endsWith(".ts"),
    });
    const typeface = here("node_modules/@fontsource/atkinson-hyperlegible-next/files");
    for (const weight of [400, 700])
      cpSync(
        `${typeface}/atkinson-hyperlegible-next-latin-${weight}-normal.woff`,
        here(`out/main/fonts/atkinson-hyperlegible-next-latin-${weight}-normal.woff`),
      );
  },
};

/** Whose work is built in: shown in the about box. */
const writeNotices = {
  name: "write-notices",
  closeBundle: () => writeFileSync(here("out/renderer/notices.json"), JSON.stringify(collectNotices(here(".")))),
};

/** Packages that look for files beside themselves (native code, a thread's program, fonts, WebAssembly), or whose own `require` clashes in one bundle, stay packages. */
const readFilesOfTheirOwn = ["better-sqlite3", "fflate", "pdfkit", "highs", /^write-excel-file/];

export default defineConfig({
  main: {
    plugins: [copyBeside],
    build: {
      outDir: here("out/main"),
      externalizeDeps: false,
      rollupOptions: {
        ...constants,
        external: ["electron", ...readFilesOfTheirOwn, /^node:/],
        input: {
          start: here("main/start.ts"),
          desktop: here("main/desktop/main.ts"),
          service: here("main/service/process.ts"),
          worker: here("main/service/work/worker.ts"),
          browser: here("main/browser/main.ts"),
          cli: here("main/cli/main.ts"),
        },
        output: { ...constants.output, format: "es", entryFileNames: "[name].js", chunkFileNames: "[name].js" },
      },
    },
  },
  preload: {
    build: {
      externalizeDeps: false,
      outDir: here("out/preload"),
      rollupOptions: {
        external: ["electron"],
        input: { preload: here("main/desktop/preload.ts") },
        // A sandboxed preload must be one CommonJS file.
        output: { format: "cjs", entryFileNames: "[name].cjs" },
      },
    },
  },
  renderer: {
    root: here("renderer"),
    plugins: [react(), writeNotices],
    build: {
      outDir: here("out/renderer"),
      emptyOutDir: true,
      rollupOptions: { ...constants, input: here("renderer/index.html") },
    },
  },
});
