/**
 * Sixty megabytes of JSON that nobody means, given to the command line and to the browser host: each is answered with a
 * sentence within five seconds, and no process comes to a gigabyte. On the built program.
 */
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { type OutgoingHttpHeaders, request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { KEY_HEADER, keyOfFragment } from "../../app/contract/page-key.ts";
import { type Bench, type BenchFigure, BenchUnavailable } from "./bench.ts";
import { shapeNames, shapeOf } from "./large-json.ts";

const commandLine = fileURLToPath(new URL("../../out/main/cli.js", import.meta.url));
const browserHost = fileURLToPath(new URL("../../out/main/browser.js", import.meta.url));
const LIMIT_S = 5;
const LIMIT_MB = 1000;

interface Taken {
  readonly what: string;
  readonly seconds: number;
  readonly peakMb: number;
}

const worst = (all: readonly Taken[], key: "seconds" | "peakMb"): Taken => {
  const [first] = all.toSorted((a, b) => b[key] - a[key]);
  if (first === undefined) throw new Error("nothing was measured");
  return first;
};

/** The highest resident size so far, MB; as Linux counts it. */
const peakOf = (pid: number): number => {
  const kib = /^VmHWM:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/status`, "utf8"))?.[1];
  if (kib === undefined) throw new Error("the process tells no peak");
  return (Number(kib) * 1024) / 1e6;
};
const forgetPeak = (pid: number): void => writeFileSync(`/proc/${pid}/clear_refs`, "5");

/** Says as its last line, as it ends, the most that it has held, KiB. */
const tellPeak = `data:text/javascript,${encodeURIComponent(
  'process.on("exit",()=>process.stderr.write("\\npeak "+process.resourceUsage().maxRSS+"\\n"))',
)}`;

const onCommandLine = async (folder: string, shape: string): Promise<Taken> => {
  const file = join(folder, "large.json");
  writeFileSync(file, shapeOf(shape).bytes);
  const ledger = join(folder, "large.coldstock");
  const from = performance.now();
  const child = spawn(process.execPath, ["--import", tellPeak, commandLine, "import", file, ledger]);
  let said = "";
  child.stderr.on("data", (text: Buffer) => (said += text.toString()));
  const status = await new Promise<number | null>((resolve) => child.on("close", resolve));
  const seconds = (performance.now() - from) / 1000;
  const sentence = said.split("\n")[0] ?? "";
  if (status !== 2 || !/^\S+ \S+ /.test(sentence)) throw new Error(`${shape}: ended with ${status}: ${said}`);
  if (existsSync(ledger)) throw new Error(`${shape}: left a ledger`);
  const peak = /^peak (\d+)$/m.exec(said)?.[1];
  return { what: shape, seconds, peakMb: (Number(peak) * 1024) / 1e6 };
};

/** Over a connection of its own: one kept from before may just be closing. */
const posted = (address: string, headers: OutgoingHttpHeaders, body: Buffer): Promise<string> =>
  new Promise((resolve, reject) => {
    const asked = request(address, { method: "POST", agent: false, headers }, (answer) => {
      let said = "";
      answer.setEncoding("utf8").on("data", (text: string) => (said += text));
      answer.on("end", () => resolve(said));
      answer.on("error", reject);
    });
    asked.on("error", reject);
    asked.end(body);
  });

interface Host {
  readonly pid: number;
  post(path: string, type: string, body: Buffer): Promise<{ readonly ok: boolean; readonly failure?: unknown }>;
  end(): Promise<void>;
}

const startHost = async (folder: string): Promise<Host> => {
  const child = spawn(process.execPath, [browserHost, "--print"], { env: { ...process.env, COLDSTOCK_HOME: folder } });
  const gone = new Promise<void>((resolve) => child.on("close", () => resolve()));
  const address = await new Promise<string>((resolve, reject) => {
    let said = "";
    child.stdout.on("data", (text: Buffer) => {
      said += text.toString();
      const found = /http:\S+/.exec(said)?.[0];
      if (found !== undefined) resolve(found);
    });
    child.on("close", () => reject(new Error(`the host ended: ${said}`)));
  });
  const { origin } = new URL(address);
  const entered = await fetch(address, { redirect: "manual" });
  const cookie = entered.headers.getSetCookie()[0]?.split(";")[0] ?? "";
  const key = keyOfFragment(new URL(entered.headers.get("location") ?? "/", origin).hash) ?? "";
  return {
    pid: child.pid ?? 0,
    post: async (path, type, body) => {
      const headers = { cookie, [KEY_HEADER]: key, origin, "content-type": type, "content-length": body.length };
      return JSON.parse(await posted(origin + path, headers, body)) as { ok: boolean };
    },
    end: async () => {
      child.kill("SIGTERM");
      await gone;
    },
  };
};

const doors = [
  {
    door: "a question",
    path: "/call",
    type: "application/json",
    body: (shape: Buffer): Buffer =>
      Buffer.concat([Buffer.from('{"name":"plan.edit","input":'), shape, Buffer.from("}")]),
  },
  {
    door: "a document",
    path: "/ledger-document?name=large.json",
    type: "application/octet-stream",
    body: (shape: Buffer): Buffer => shape,
  },
] as const;

const inHost = async (folder: string): Promise<readonly Taken[]> => {
  const host = await startHost(folder);
  try {
    const all: Taken[] = [];
    for (const shape of shapeNames)
      for (const { door, path, type, body } of doors) {
        const what = `${shape}, as ${door}`;
        const bytes = body(shapeOf(shape).bytes);
        forgetPeak(host.pid);
        const from = performance.now();
        const answer = await host.post(path, type, bytes);
        all.push({ what, seconds: (performance.now() - from) / 1000, peakMb: peakOf(host.pid) });
        if (answer.ok) throw new Error(`${what}: was taken`);
        const small = await host.post("/call", "application/json", Buffer.from('{"name":"ledger.info","input":{}}'));
        if (!small.ok) throw new Error(`${what}: the host answers nothing afterwards`);
      }
    return all;
  } finally {
    await host.end();
  }
};

const figuresOf = (where: string, all: readonly Taken[]): readonly BenchFigure[] => {
  const [slowest, largest] = [worst(all, "seconds"), worst(all, "peakMb")];
  return [
    {
      name: `60 MB of JSON ${where}: the longest until an answer`,
      value: slowest.seconds,
      unit: "s",
      limit: LIMIT_S,
      note: slowest.what,
    },
    {
      name: `60 MB of JSON ${where}: the most memory`,
      value: largest.peakMb,
      unit: "MB",
      limit: LIMIT_MB,
      note: largest.what,
    },
  ];
};

export const bench: Bench = {
  name: "large JSON",
  run: async () => {
    if (process.platform !== "linux") throw new BenchUnavailable("The peak of a process is read from /proc.");
    for (const program of [commandLine, browserHost])
      if (!existsSync(program)) throw new BenchUnavailable(`${program} is missing: npm run build first.`);
    const folder = mkdtempSync(join(tmpdir(), "coldstock-json-"));
    try {
      const onLine: Taken[] = [];
      for (const shape of shapeNames) onLine.push(await onCommandLine(folder, shape));
      const hosted = await inHost(folder);
      if (process.env["COLDSTOCK_BENCH_ALL"] !== undefined)
        for (const { what, seconds, peakMb } of [...onLine, ...hosted])
          console.error(`  ${what}: ${seconds.toFixed(2)} s, ${peakMb.toFixed(0)} MB`);
      return [...figuresOf("on the command line", onLine), ...figuresOf("in the browser host", hosted)];
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
};
