/** The service within this process, for the programs of this folder. */
import { join } from "node:path";
import type { Input, OperationName, Output } from "../../../app/contract/contract.ts";
import { revisionIn } from "../../../db/read-only-copy.ts";
import { keepCopies } from "../../../main/copies/keep-copies.ts";
import { databaseFiles } from "../../../main/service/database-files.ts";
import { makeService, type Service } from "../../../main/service/service.ts";
import { inlineRunner } from "../../../main/service/work/runner.ts";
import type { ServiceChild } from "../service-child.ts";

let ids = 0;

/** Its copies lie in a folder below. */
export const serviceIn = (folder: string): Service =>
  makeService({
    environment: {
      now: () => Date.UTC(2031, 5, 1) + ++ids,
      author: () => "tester",
      newId: (prefix) => `${prefix}-${++ids}`,
      logDefect: (where, error) => `${where}: ${String(error)}`,
    },
    files: databaseFiles,
    runner: inlineRunner(),
    copies: keepCopies(() => join(folder, "data"), revisionIn),
  });

/** Throws what was refused. */
export const must = async <N extends OperationName>(service: Service, name: N, input: Input<N>): Promise<Output<N>> => {
  const reply = await service.call(name, input);
  if (!reply.ok) throw new Error(`${name}: ${reply.failure.message}`);
  return reply.value;
};

/** As what asks for edits wants it. */
export const childOf = (service: Service): ServiceChild => ({
  ask: async (name, input) => await service.call(name, input),
  must: async (name, input) => await must(service, name, input),
  kill: async () => await service.close(),
  close: async () => await service.close(),
});
