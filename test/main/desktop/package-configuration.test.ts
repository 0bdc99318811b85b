/**
 * The package's configuration, for all three systems, against the schema that its builder publishes with itself; and the
 * words that make the packaged program a command line.
 */
import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { Ajv } from "ajv";
import { describe, expect, it, test } from "vitest";
import { cliCommands } from "../../../main/cli/commands.ts";
import { COMMAND_NAMES, commandWords } from "../../../main/desktop/command-line.ts";
import { outsideArchive } from "../../../main/desktop/outside-archive.ts";
import product from "../../../package.json" with { type: "json" };

const schema = JSON.parse(
  readFileSync(createRequire(import.meta.url).resolve("app-builder-lib/scheme.json"), "utf8"),
) as object;
const validate = new Ajv({ strict: false, allErrors: true }).compile(schema);
const root = new URL("../../../", import.meta.url);

describe("the configuration of packages", () => {
  it("is what the builder's schema takes", () => {
    validate(product.build);
    expect(validate.errors).toBeNull();
  });

  it("would be refused with a word that the builder does not know", () => {
    expect(validate({ ...product.build, fileAsociations: [] })).toBe(false);
    expect(validate({ ...product.build, electronFuses: { runAsNode: "no" } })).toBe(false);
  });

  it("has a target for each system, and an icon large enough for all of them", () => {
    expect([product.build.linux.target, product.build.win.target, product.build.mac.target]).toEqual([
      ["AppImage", "deb"],
      ["nsis"],
      ["dmg"],
    ]);
    const icon = readFileSync(new URL(product.build.icon, root));
    // PNG (W3C, third edition, 11.2.1): width and height stand at bytes 16 and 20.
    expect([icon.readUInt32BE(16), icon.readUInt32BE(20)]).toEqual([1024, 1024]);
  });

  it("takes the database module of its own system and leaves those of others", () => {
    for (const [system, name] of [
      ["linux", "linux-x64"],
      ["win", "win32-x64"],
      ["mac", "darwin-arm64"],
    ] as const) {
      const rule = product.build[system].files.find((line) => line.startsWith("!"))!;
      expect(rule.replace("${arch}", name.split("-")[1]!)).toContain(`!(${name}).node`);
      expect(existsSync(new URL(`node_modules/better-sqlite3/prebuilds/${name}.node`, root))).toBe(true);
    }
  });
});

test.each([
  [["/opt/coldstock", "cli", "check", "--json", "a.coldstock"], true, ["check", "--json", "a.coldstock"]],
  [["/opt/coldstock", "--no-sandbox", "cli", "--help"], true, ["--help"]],
  [["/opt/coldstock", "cli"], true, []],
  [["electron", ".", "cli", "verify"], false, ["verify"]],
  [["/opt/coldstock", "check", "--json", "a.coldstock"], true, ["check", "--json", "a.coldstock"]],
  [["electron", ".", "verify", "a.coldstock"], false, ["verify", "a.coldstock"]],
  [["/opt/coldstock", "--no-sandbox", "help"], true, ["help"]],
  [["/opt/coldstock", "a.coldstock"], true, null],
  [["/opt/coldstock", "a.coldstock", "cli"], true, null],
  [["/opt/coldstock"], true, null],
  [["electron", ".", "--disable-gpu"], false, null],
])("%j is a command line: %j", (argv, isPackaged, words) => {
  expect(commandWords(argv, isPackaged)).toEqual(words);
});

test("the installed program knows every command by its name", () => {
  expect([...COMMAND_NAMES].toSorted()).toEqual([...cliCommands.map(({ name }) => name), "help"].toSorted());
});

test("a plain Node is led out of the archive, and only out of that", () => {
  expect(outsideArchive("/opt/Coldstock/resources/app.asar/out/main/service.js")).toBe(
    "/opt/Coldstock/resources/app.asar.unpacked/out/main/service.js",
  );
  expect(outsideArchive("/src/coldstock/out/main/service.js")).toBe("/src/coldstock/out/main/service.js");
});
