/**
 * The service within this process, for the programs of this folder: alone, as the desktop has it, or behind the doors of
 * the browser host, asked over HTTP, where `COLDSTOCK_CRASH_HOST=browser` says so.
 */
import { join } from "node:path";
import type { Input, OperationName, Output } from "../../../app/contract/contract.ts";
import type { Reply } from "../../../app/ground/failure.ts";
import { revisionIn } from "../../../db/read-only-copy.ts";
import { keepCopies } from "../../../main/copies/keep-copies.ts";
import { databaseFiles } from "../../../main/service/database-files.ts";
import type { Environment } from "../../../main/service/environment.ts";
import { makeService, type Service } from "../../../main/service/service.ts";
import { inlineRunner } from "../../../main/service/work/runner.ts";
import { openPageDoor } from "../page-door.ts";
import type { ServiceChild } from "../service-child.ts";

let ids = 0;

const isBrowser = process.env["COLDSTOCK_CRASH_HOST"] === "browser";

const environment: Environment = {
  now: () => Date.UTC(2031, 5, 1) + ++ids,
  author: () => "tester",
  newId: (prefix) => `${prefix}-${++ids}`,
  logDefect: (where, error) => `${where}: ${String(error)}`,
};

/** Its copies lie in a folder below. */
export const serviceIn = async (folder: string): Promise<Service> => {
  const service = makeService({
    environment,
    files: databaseFiles,
    runner: inlineRunner(),
    copies: keepCopies(() => join(folder, "data"), revisionIn),
  });
  if (!isBrowser) return service;
  const door = await openPageDoor(service, folder, environment);
  return {
    ...service,
    dispatch: door.ask,
    call: async <N extends OperationName>(name: N, input: Input<N>) =>
      (await door.ask(name, input)) as Reply<Output<N>>,
    close: async () => {
      await door.close();
      await service.close();
    },
  };
};

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
