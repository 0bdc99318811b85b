/** The compiler over each folder with the rights of that folder: app has no DOM and no Node, renderer no Node. */
import { fixtureFolder } from "../source-files.ts";
import type { Bite, Gate, Look } from "../gate.ts";
import { linesOf, root, runTool } from "../program.ts";

const folders = ["app", "db", "main", "renderer", "test"] as const;
type Folder = (typeof folders)[number];

/** What must not compile in each folder: the fixture uses it. */
const forbidden: Record<Folder, readonly RegExp[]> = {
  app: [/'document'/, /'process'/, /node:fs/],
  db: [/'document'/],
  main: [/'document'/],
  renderer: [/'process'/, /node:fs/],
  test: [/not assignable/],
};

const compile = async (project: string): Promise<Look> => {
  const { status, text } = await runTool("tsc", ["-p", project, "--listFiles", "--pretty", "false"]);
  const lines = linesOf(text);
  const files = lines.filter((line) => line.startsWith(root) && !line.includes("/node_modules/")).length;
  const faults = lines.filter((line) => !line.startsWith("/"));
  return { files, faults: status === 0 ? [] : faults.length > 0 ? faults : [`tsc ended with ${status}: ${text}`] };
};

const bite = (folder: Folder): Bite => ({
  name: `types/${folder}`,
  look: () => compile(fixtureFolder(`types/${folder}`)),
  mustFind: forbidden[folder],
});

export const typeGates: readonly Gate[] = folders.map((folder) => ({
  name: `types ${folder}`,
  fix: `npx tsc -p ${folder}`,
  look: () => compile(folder),
  bites: [bite(folder)],
}));
