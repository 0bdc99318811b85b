/** End-to-end tests in two hosts: Chromium through the browser host, and the real window. */
import { defineConfig } from "@playwright/test";
import { root } from "./equipment/project.ts";
import type { HostOption } from "./harness/planner.ts";

const report = process.env["COLDSTOCK_E2E_REPORT"];

export default defineConfig<HostOption>({
  testDir: ".",
  testMatch: "**/*.spec.ts",
  outputDir: `${root}/out/end-to-end`,
  timeout: 120_000,
  expect: { timeout: 20_000 },
  fullyParallel: false,
  workers: 2,
  forbidOnly: process.env["CI"] === "true",
  reporter: [["list"], ...(report === undefined ? [] : [["json", { outputFile: report }] as ["json", object]])],
  projects: [
    { name: "chromium", use: { host: "browser" }, testIgnore: "desktop/**" },
    // What is tagged @page is the page's own work, the same whatever holds it: one host shows it.
    { name: "electron", use: { host: "desktop" }, testIgnore: "browser/**", grepInvert: /@page/ },
  ],
});
