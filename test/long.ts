/**
 * `npm run test:long -- <which>`: the same tests as in `npm test`, with the large numbers that a night allows: kills,
 * fuzz, calls, cuts, or all of them. Their figures come out as they go; the end status is that of the tests.
 */
import { runShown } from "./suite/stage.ts";

interface Long {
  readonly says: string;
  readonly path: string;
  /** What it is set to, unless whoever runs it has set it. */
  readonly environment: Readonly<Record<string, string>>;
}

const longs: Readonly<Record<string, Long>> = {
  kills: {
    says: "the service killed 1,000 times within at least 50,000 acknowledged edits",
    path: "test/crash/kill.test.ts",
    environment: { COLDSTOCK_KILL_LEDGERS: "100" },
  },
  fuzz: {
    says: "1,000,000 spoiled files and questions",
    path: "test/fuzz/files.test.ts",
    environment: { COLDSTOCK_FUZZ_INPUTS: "1000000" },
  },
  calls: {
    says: "every call that writes fails once, without leaving any page out",
    path: "test/crash/failing-calls.test.ts",
    environment: { COLDSTOCK_FAILING: "all" },
  },
  cuts: {
    says: "2,000 power cuts",
    path: "test/crash/power-cut.test.ts",
    environment: { COLDSTOCK_CUTS: "2000" },
  },
};

const [asked = ""] = process.argv.slice(2);
const chosen = asked === "all" ? Object.values(longs) : [longs[asked]].filter((long) => long !== undefined);
if (chosen.length === 0) {
  console.error(`Say which: ${Object.keys(longs).join(", ")}, or all.`);
  process.exitCode = 2;
}
for (const { says, path, environment } of chosen) {
  console.log(`${says}:`);
  const status = await runShown(
    "vitest",
    ["run", path, "--config", "test/vitest.config.ts", "--disable-console-intercept"],
    { ...environment, ...process.env },
  );
  if (status !== 0) process.exitCode = 1;
}
