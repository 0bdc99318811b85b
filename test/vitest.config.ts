/** Unit, property, published and crash tests; the end-to-end tests have a runner of their own. */
import { fileURLToPath } from "node:url";
import react from "@vitejs/plugin-react";
import { defineConfig } from "vitest/config";

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  plugins: [react()],
  test: {
    include: ["test/**/*.test.ts", "test/**/*.test.tsx"],
    exclude: ["test/e2e/**", "test/bench/**", "node_modules/**"],
    env: { TZ: "UTC", LC_ALL: "C" },
    testTimeout: 180_000,
    hookTimeout: 120_000,
    pool: "forks",
    // Left to itself it keeps a core free, which on a machine of two is half of it.
    maxWorkers: "100%",
  },
});
