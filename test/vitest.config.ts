/** Unit, property, published and crash tests; the end-to-end tests have a runner of their own. */
import { fileURLToPath } from "node:url";
import react from "@vitejs/plugin-react";
import { defineConfig } from "vitest/config";

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
    include: ["test/**/*.test.ts", "test/**/*.test.tsx"],
    exclude: ["test/e2e/**", "test/bench/**", "node_modules/**"],
    globalSetup: ["test/suite/programs.ts"],
    // Copies of the days come to lie there, not in the home of whoever runs the tests.
    env: { TZ: "UTC", LC_ALL: "C", COLDSTOCK_HOME: fileURLToPath(new URL("../out/test-home", import.meta.url)) },
    testTimeout: 180_000,
    hookTimeout: 120_000,
    pool: "forks",
    // Left to itself it keeps a core free, which on a machine of two is half of it.
    maxWorkers: "100%",
  },
});
