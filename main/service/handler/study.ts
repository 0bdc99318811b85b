/** Studies: the points of a study folder, in the threads. */
import type { HandlersOf } from "../context.ts";

export const studyHandlers: HandlersOf<"study.run"> = {
  "study.run": async ({ folder, shard }, context) =>
    await (await import("../../study/run-shards.ts")).runShards(folder, shard, context),
};
