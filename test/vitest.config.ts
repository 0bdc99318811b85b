/** Unit, property, published and crash tests; the end-to-end tests have a runner of their own. */
import { fileURLToPath } from "node:url";
import react from "@vitejs/plugin-react";
import { defineConfig } from "vitest/config";
import { testHome } from "./suite/programs.ts";
import { quickFolder } from "./suite/quick-folder.ts";

/** Tests that put a page's globals into Node, or run in jsdom: each in a world of its own. */
const withPage = [
  "test/renderer/**/*.test.tsx",
  "test/renderer/bridge/*.test.ts",
  "test/renderer/reports/report-choices.test.ts",
];

/** Tests that start threads and processes, or watch this one: each in a process that has done nothing else. */
const apart = ["test/crash/**/*.test.ts", "test/fuzz/**/*.test.ts", "test/main/{service,security}/**/*.test.ts"];

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  plugins: [react()],
  // Threads that a command starts in a test run the built worker too.
  resolve: {
    alias: [
      {
        find: /^\.\/work\/worker-file\.ts$/,
        replacement: fileURLToPath(new URL("suite/programs.ts", import.meta.url)),
      },
    ],
  },
  test: {
    globalSetup: ["test/suite/programs.ts"],
    // Copies of the days come to lie there, not in the home of whoever runs the tests.
    env: { TZ: "UTC", LC_ALL: "C", COLDSTOCK_HOME: testHome, TMPDIR: quickFolder() },
    testTimeout: 180_000,
    hookTimeout: 120_000,
    pool: "forks",
    // Left to itself it keeps a core free, which on a machine of two is half of it.
    maxWorkers: "100%",
    projects: [
      // Loading modules takes longer than most tests of them: a worker loads each once, and keeps it for the next file.
      {
        extends: true,
        test: {
          name: "plain",
          include: ["test/**/*.test.ts"],
          exclude: [...withPage, ...apart, "test/e2e/**", "test/bench/**"],
          isolate: false,
        },
      },
      { extends: true, test: { name: "apart", include: apart } },
      { extends: true, test: { name: "page", include: withPage } },
    ],
  },
});
