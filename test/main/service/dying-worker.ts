/** A thread's program with the product's own computations, of which a part of a risk run dies half done, as often as the file says. */
import { readFileSync, writeFileSync } from "node:fs";
import type { FindWork } from "../../../main/service/work/kind.ts";
import { serve } from "../../../main/service/work/serve-thread.ts";
import { workOf } from "../../../main/service/work/works.ts";

const deathsFile = process.env["COLDSTOCK_TEST_DEATHS"] ?? "";
/** Blocks that a part has run when it dies: it asks before each whether it is to stop. */
const HALF_DONE = 5;

const dying: FindWork = (name) => {
  const work = workOf(name);
  if (name !== "risk.run") return work;
  return {
    ...work,
    compute: (base, asked, part, working) => {
      let asks = 0;
      const shouldStop = (): boolean => {
        asks += 1;
        if (asks === HALF_DONE) {
          const left = Number(readFileSync(deathsFile, "utf8"));
          if (left > 0) {
            writeFileSync(deathsFile, String(left - 1));
            process.exit(3);
          }
        }
        return working.shouldStop();
      };
      return work.compute(base, asked, part, { ...working, shouldStop });
    },
  };
};

serve(dying);
