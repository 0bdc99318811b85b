/** "-" is the standard input where a file is read and the standard output where one is written; nothing else comes there. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, it } from "vitest";
import { client } from "../../suite/clients.ts";
import { run, runWith } from "./terminal.ts";

let folder = "";
const at = (name: string): string => join(folder, name);
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-streams-"));
  await run("demo", "tarn", at("tarn.coldstock"));
});
afterAll(() => rmSync(folder, { recursive: true }));

it("a ledger goes through a pipe and comes out the same", async () => {
  const document = (await run("export", at("tarn.coldstock"), "--to", "-")).out;
  expect((await runWith(document, "import", "-", at("piped.coldstock"))).status).toBe(0);
  expect((await run("export", at("piped.coldstock"))).out).toBe(document);
});

it("rows go through a pipe and find themselves unchanged", async () => {
  const rows = (await run("export", at("tarn.coldstock"), "--rows", "flights", "--to", "-")).out;
  const { status, out } = await runWith(rows, "import", "-", at("tarn.coldstock"), "--json");
  expect(status).toBe(0);
  expect(JSON.parse(out)).toMatchObject({ kind: "flights", newRows: 0, changedRows: 0, faultCount: 0 });
});

it("a workbook is known by its bytes", async () => {
  await run("export", at("tarn.coldstock"), "--rows", "sorties", "--to", at("sorties.xlsx"));
  const { out } = await runWith(readFileSync(at("sorties.xlsx")), "import", "-", at("tarn.coldstock"), "--json");
  expect(JSON.parse(out)).toMatchObject({ kind: "sorties", newRows: 0, changedRows: 0, faultCount: 0 });
});

it("another office's document is merged from a pipe", async () => {
  const document = (await run("export", at("piped.coldstock"))).out;
  const { status, out } = await runWith(document, "merge", at("tarn.coldstock"), "-");
  expect(status).toBe(0);
  expect(out).toMatch(/othing/);
});

it("a report is written as it is, and only that", async () => {
  const options = ["--sections", "verdict", "--form", "pdf"];
  const { status, bytes } = await run("report", at("tarn.coldstock"), "-", ...options);
  expect(status).toBe(0);
  expect(bytes.subarray(0, 5).toString()).toBe("%PDF-");
  expect(bytes.subarray(-6).toString()).toMatch(/%%EOF\n?$/);
  const asked = await run("report", at("tarn.coldstock"), "-");
  expect(asked).toMatchObject({ status: 2, err: "Say which form with --form: pdf, html, xlsx, ics, csv.\n" });
});

it("a ledger itself does not come from a pipe, and that is said", async () => {
  const { status, err } = await run("check", "-");
  expect(status).toBe(2);
  expect(err).toMatch(/A ledger is a file on a disk/);
});

it.each([
  [["check", "tarn", "--case", "nothing"], /There is no plan case "nothing"\. There are: .*\.\n$/],
  [["demo", "third", "x.coldstock"], /^There are two demonstrations: tarn and beck\.\n$/],
  [["completion", "csh"], /^Completion is there for: bash, zsh, fish\.\n$/],
  [["plant", "tarn", "nowhere"], /^There is no source described as a plant "nowhere"\. .*\.\n$/],
  [["report", "tarn", "report.doc"], /^A report is written as .*\.\n$/],
] as const)("no name of the code leaks into what is said: %j", async ([command, first, ...others], said) => {
  const ledger = first === "tarn" ? at("tarn.coldstock") : first;
  const { err } = await run(command, ledger, ...others.map((word) => (word.startsWith("report.") ? at(word) : word)));
  expect(err).toMatch(said);
});

const main = fileURLToPath(new URL("../../../main/cli/main.ts", import.meta.url));

it("in a real pipe nothing but the answer comes on the standard output, progress on the error output", () => {
  const read = `process.stdout.write(String(JSON.parse(require("fs").readFileSync(0)).holds))`;
  const node = process.execPath;
  const typed = `"${node}" "${main}" check "${at("tarn.coldstock")}" --json 2>"${at("err")}" | "${node}" -e '${read}'`;
  expect(spawnSync("bash", ["-c", typed], { encoding: "utf8" }).stdout).toBe("false");
  expect(readFileSync(at("err"), "utf8")).toBe("Checking the supply …\n");
});

const script = async (shell: string): Promise<string> => {
  writeFileSync(at(`completion.${shell}`), (await run("completion", shell)).out);
  return at(`completion.${shell}`);
};

it("bash completes commands and options", client("bash"), async () => {
  const file = await script("bash");
  const complete = (...words: readonly string[]) => {
    const list = words.map((word) => `'${word}'`).join(" ");
    const typed = `source '${file}'; COMP_WORDS=(coldstock ${list}); COMP_CWORD=${words.length}; _coldstock; echo "\${COMPREPLY[*]}"`;
    return spawnSync("bash", ["-c", typed], { encoding: "utf8" }).stdout.trim();
  };
  expect(complete("re").split(" ").toSorted()).toEqual(["report", "restore"]);
  expect(complete("check", "--as")).toBe("--as-of");
  // File names are the shell's own.
  expect(complete("check", "t")).toBe("");
});

it("fish completes commands and options", client("fish"), async () => {
  const file = await script("fish");
  const complete = (typed: string) =>
    spawnSync("fish", ["--no-config", "-c", `source '${file}'; complete -C '${typed}'`], { encoding: "utf8" });
  expect(complete("coldstock verif").stdout).toMatch(/^verify\tCheck a ledger file/);
  expect(complete("coldstock check --as").stdout).toMatch(/^--as-of\t/);
});

it("zsh takes the script and knows the commands", client("zsh"), async () => {
  const file = await script("zsh");
  // What the line editor brings is told here to say what it was given.
  const typed = `compdef() { }; _describe() { print -rl \${(P)4} }; _arguments() { print -rl -- "$@" }
source '${file}'; CURRENT=2; words=(coldstock ''); _coldstock; CURRENT=3; words=(coldstock check ''); _coldstock`;
  const { status, stdout, stderr } = spawnSync("zsh", ["-f", "-c", typed], { encoding: "utf8" });
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  expect(stdout).toMatch(/^verify:Check a ledger file\\: integrity/m);
  expect(stdout).toMatch(/^--as-of\[as it was known.*\]:value:_files$/m);
});
