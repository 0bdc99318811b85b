/** Electron's security checklist: the protocol that serves the page, and the policy it comes with. */
import { mkdtempSync, mkdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { answerPage } from "../../../main/desktop/page-protocol.ts";
import { builtFiles } from "../../../main/page/built-files.ts";
import { CONTENT_POLICY } from "../../../main/page/content-policy.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-page-"));
mkdirSync(join(folder, "page/assets"), { recursive: true });
writeFileSync(join(folder, "secret.json"), "secret");
writeFileSync(join(folder, "page/index.html"), "<!doctype html><title>page</title>");
writeFileSync(join(folder, "page/assets/main.js"), "1;");
writeFileSync(join(folder, "page/assets/main.sqlite"), "not to be served");
const answer = answerPage(builtFiles(join(folder, "page")));
const get = (url: string, method = "GET"): Response => answer({ url, method });

describe("the page's protocol", () => {
  it("item 18: serves the built files with their types", async () => {
    expect(await get("app://coldstock/").text()).toContain("<title>page</title>");
    expect(get("app://coldstock/assets/main.js").headers.get("content-type")).toMatch(/^text\/javascript/);
  });

  it.each([
    "app://coldstock/../secret.json",
    "app://coldstock/%2e%2e/secret.json",
    "app://coldstock/..%2fsecret.json",
    "app://coldstock/%2e%2e%5csecret.json",
    "app://coldstock/assets/..%2f..%2fsecret.json",
    "app://coldstock//etc/passwd",
    "app://coldstock/assets/",
    "app://coldstock/assets/main.sqlite",
    "app://coldstock/INDEX.HTML",
    "app://other/index.html",
    "file:///etc/passwd",
    "https://coldstock/index.html",
  ])("item 18: has nothing under %s", (url) => expect(get(url).status).toBe(404));

  it.each(["POST", "PUT", "DELETE", "HEAD", "OPTIONS"])("item 18: does not answer %s", (method) =>
    expect(get("app://coldstock/", method).status).toBe(405),
  );

  it("item 18: is not troubled by what is no address", () => expect(get("app://[").status).toBe(400));
});

describe("the content security policy", () => {
  const rules = new Map(CONTENT_POLICY.split("; ").map((rule) => [rule.split(" ")[0], rule.split(" ").slice(1)]));

  it("item 7: goes out with every answer, refusals too", () => {
    for (const response of [get("app://coldstock/"), get("app://coldstock/no"), get("app://coldstock/", "POST")]) {
      expect(response.headers.get("content-security-policy")).toBe(CONTENT_POLICY);
      expect(response.headers.get("x-content-type-options")).toBe("nosniff");
    }
  });

  it("item 7: allows nothing that it does not name, and no script but our own files", () => {
    expect(rules.get("default-src")).toEqual(["'none'"]);
    expect(rules.get("script-src")).toEqual(["'self'"]);
    expect(rules.get("connect-src")).toEqual(["'self'"]);
    for (const name of ["base-uri", "form-action", "frame-ancestors"]) expect(rules.get(name)).toEqual(["'none'"]);
    expect(rules.get("require-trusted-types-for")).toEqual(["'script'"]);
  });

  it("item 7: has no unsafe word, no wildcard and no address", () => {
    const sources = [...rules.values()].flat();
    for (const source of sources) expect(source).not.toMatch(/unsafe|\*|http|:\/\//);
  });
});
