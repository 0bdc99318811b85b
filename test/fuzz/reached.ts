/** What of the program has run, block by block, as V8 counts it: by this the fuzz test knows an input that reached something new. */
import { Session } from "node:inspector";
import { root } from "../e2e/equipment/project.ts";

export interface Reached {
  /** The blocks that have run for the first time since the last look. */
  newlyRun(): Set<string>;
  /** Whether some of these blocks have run since the last look; they are taken out. */
  tookFrom(blocks: Set<string>): boolean;
  /** How many blocks have ever run. */
  readonly blocks: number;
  end(): void;
}

/** The program, and the packages that read files for it; not the tests, nor what runs them. */
const isProgram = (url: string): boolean =>
  url.includes(root) &&
  (/\/(app|db|main)\//.test(url.slice(url.indexOf(root) + root.length - 1)) ||
    /node_modules\/(csv-parse|ical\.js|yauzl|fflate|read-excel-file|saxes|zod|windows-iana)\//.test(url));

/** Counts in this thread from now on. The inspector of one's own thread answers within the call. */
export const countReached = (): Reached => {
  const session = new Session();
  session.connect();
  session.post("Profiler.enable");
  session.post("Profiler.startPreciseCoverage", { callCount: true, detailed: true });
  const seen = new Set<string>();
  /** What has run since the last look; the counts begin anew. */
  const look = (): readonly string[] => {
    const run: string[] = [];
    session.post("Profiler.takePreciseCoverage", (error, { result }) => {
      if (error !== null) throw new Error(error.message);
      for (const { scriptId, url, functions } of result) {
        if (!isProgram(url)) continue;
        for (const { ranges } of functions)
          for (const { startOffset, endOffset, count } of ranges)
            if (count > 0) run.push(`${scriptId}:${startOffset}:${endOffset}`);
      }
    });
    return run;
  };
  return {
    newlyRun: () => {
      const news = new Set(look().filter((block) => !seen.has(block)));
      for (const block of news) seen.add(block);
      return news;
    },
    tookFrom: (blocks) => look().filter((block) => blocks.delete(block)).length > 0,
    get blocks() {
      return seen.size;
    },
    end: () => session.disconnect(),
  };
};
