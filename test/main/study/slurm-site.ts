/** A site of its own with Slurm on this one machine: munge, a controller and four nodes in a temporary folder; stopped by their own numbers. */
import { type ChildProcess, execFileSync, spawn, spawnSync } from "node:child_process";
import { randomBytes } from "node:crypto";
import { mkdirSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { hostname, userInfo } from "node:os";
import { join } from "node:path";

const freePorts = async (count: number): Promise<readonly number[]> => {
  const servers = await Promise.all(
    Array.from({ length: count }, async () => {
      const server = createServer();
      await new Promise<void>((ready) => server.listen(0, "127.0.0.1", ready));
      return server;
    }),
  );
  const ports = servers.map((server) => {
    const address = server.address();
    return typeof address === "object" && address !== null ? address.port : 0;
  });
  await Promise.all(servers.map((server) => new Promise((closed) => server.close(closed))));
  return ports;
};

const NODES = ["n1", "n2", "n3", "n4"] as const;

const configuration = (folder: string, ports: readonly number[]): string => {
  const [controller = 0, ...nodes] = ports;
  const [host = "localhost"] = hostname().split(".");
  return `ClusterName=test
SlurmctldHost=${host}(127.0.0.1)
SlurmctldPort=${controller}
SlurmUser=${userInfo().username}
SlurmdUser=${userInfo().username}
AuthType=auth/munge
AuthInfo=socket=${folder}/munge.socket,cred_expire=5
CredType=cred/munge
CommunicationParameters=NoCtldInAddrAny,NoInAddrAny
StateSaveLocation=${folder}/state
SlurmctldPidFile=${folder}/slurmctld.pid
SlurmctldLogFile=${folder}/slurmctld.log
SlurmdSpoolDir=${folder}/spool-%n
SlurmdPidFile=${folder}/slurmd-%n.pid
SlurmdLogFile=${folder}/slurmd-%n.log
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
MpiDefault=none
SwitchType=switch/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
SchedulerParameters=sched_interval=2,batch_sched_delay=0,sched_min_interval=0,bf_interval=2
ReturnToService=2
SlurmdTimeout=10
KillWait=2
JobRequeue=1
${NODES.map((name, n) => `NodeName=${name} NodeHostname=${host} NodeAddr=127.0.0.1 Port=${nodes[n] ?? 0} CPUs=1 State=UNKNOWN`).join("\n")}
PartitionName=all Nodes=ALL Default=YES MaxTime=INFINITE State=UP
`;
};

export interface SlurmSite {
  readonly environment: NodeJS.ProcessEnv;
  /** Runs a command of Slurm; what it prints. */
  readonly ask: (program: string, ...words: readonly string[]) => string;
  readonly stop: () => Promise<void>;
}

const sleep = async (ms: number): Promise<void> => await new Promise((done) => setTimeout(done, ms));

/** Looks again and again until it is so. Throws after `limitMs` with what was seen last. */
export const until = async (look: () => string | true, limitMs: number): Promise<void> => {
  const end = performance.now() + limitMs;
  for (;;) {
    const seen = look();
    if (seen === true) return;
    if (performance.now() > end) throw new Error(`waited in vain: ${seen}`);
    // eslint-disable-next-line no-await-in-loop -- one look after the other
    await sleep(200);
  }
};

/** Needs root or a user of its own for all daemons. */
export const startSlurm = async (folder: string): Promise<SlurmSite> => {
  const ports = await freePorts(1 + NODES.length);
  mkdirSync(join(folder, "state"), { recursive: true });
  for (const name of NODES) mkdirSync(join(folder, `spool-${name}`));
  const key = join(folder, "munge.key");
  writeFileSync(key, randomBytes(1024), { mode: 0o600 });
  const conf = join(folder, "slurm.conf");
  writeFileSync(conf, configuration(folder, ports));
  const environment = { ...process.env, SLURM_CONF: conf };
  const started: ChildProcess[] = [];
  const begin = (program: string, ...words: readonly string[]): void => {
    started.push(spawn(program, words, { env: environment, stdio: "ignore" }));
  };
  const ask = (program: string, ...words: readonly string[]): string =>
    execFileSync(program, words, { env: environment, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] }).trim();
  begin(
    "munged",
    "--foreground",
    "--force",
    `--key-file=${key}`,
    `--socket=${folder}/munge.socket`,
    `--pid-file=${folder}/munged.pid`,
    `--log-file=${folder}/munged.log`,
    `--seed-file=${folder}/munge.seed`,
  );
  await until(() => spawnSync("munge", [`--socket=${folder}/munge.socket`, "-n"]).status === 0 || "munge", 10_000);
  begin("slurmctld", "-D", "-i");
  for (const name of NODES) begin("slurmd", "-D", "-N", name);
  const stop = async (): Promise<void> => {
    const ends = started.toReversed().map(async (child) => {
      if (child.exitCode !== null || child.signalCode !== null) return;
      const end = new Promise((done) => child.once("exit", done));
      child.kill("SIGTERM");
      const timer = setTimeout(() => child.kill("SIGKILL"), 3000);
      await end;
      clearTimeout(timer);
    });
    await Promise.all(ends);
  };
  try {
    await until(() => {
      const { status, stdout } = spawnSync("sinfo", ["-h", "-o", "%D %t"], { env: environment, encoding: "utf8" });
      return (status === 0 && stdout.trim() === "4 idle") || `sinfo: ${stdout}`;
    }, 20_000);
  } catch (error) {
    await stop();
    throw error;
  }
  return { environment, ask, stop };
};
