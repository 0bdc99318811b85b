/** What the browser host answers, address by address. Whoever comes here has been let in by the door keeper. */
import type { IncomingMessage, ServerResponse } from "node:http";
import { z } from "zod";
import type { Reply } from "../../app/ground/failure.ts";
import { parseInput } from "../../app/ground/parse-input.ts";
import { answerHostMethod, FORBIDDEN, isForbiddenToPages, valueOf } from "../page/door.ts";
import { makeLedgerTokens } from "../page/ledger-tokens.ts";
import type { Environment } from "../service/environment.ts";
import { failureOf } from "../service/failing.ts";
import type { Service } from "../service/service.ts";
import { jsonOf, MAX_FILE_BYTES, MAX_JSON_BYTES, readBody, textOf } from "./body.ts";
import { newLedgerPath, storeUpload } from "./data-folder.ts";
import { browserMethods } from "./host-methods.ts";
import { otherLedger } from "./other-ledger.ts";

/** Takes a request and gives what to reply; null: no such address. */
export type Route = (request: IncomingMessage, url: URL, response: ServerResponse) => Promise<Reply<unknown> | null>;

const question = z.strictObject({ name: z.string().max(80), input: z.unknown(), jobId: z.string().max(80).optional() });
const fileName = z.string().min(1).max(300);

const JSON_TYPE = "application/json";
const BYTES_TYPE = "application/octet-stream";

const isOfType = (request: IncomingMessage, type: string): boolean =>
  request.headers["content-type"]?.split(";", 1)[0]?.trim() === type;

const WRONG_TYPE: Reply<never> = {
  ok: false,
  failure: { code: "invalid input", message: "This kind of content is not taken here.", field: "content-type" },
};

export const postRoutes = (service: Service, folder: string, environment: Environment): Route => {
  const other = otherLedger(folder);
  const methods = browserMethods(service, folder, makeLedgerTokens(), other);

  const call = async (request: IncomingMessage): Promise<Reply<unknown>> => {
    const { name, input, jobId } = parseInput(question, jsonOf(await readBody(request, MAX_JSON_BYTES)));
    return isForbiddenToPages(name) ? FORBIDDEN : await service.dispatch(name, input, jobId);
  };
  const uploadedName = (url: URL): string => parseInput(fileName, url.searchParams.get("name"));
  const ledgerFile = async (request: IncomingMessage, url: URL): Promise<Reply<unknown>> => {
    const bytes = await readBody(request, MAX_FILE_BYTES);
    const open = async (path: string) => valueOf(await service.call("ledger.open", { path }));
    return { ok: true, value: await storeUpload(folder, uploadedName(url), bytes, open) };
  };
  const ledgerDocument = async (request: IncomingMessage, url: URL): Promise<Reply<unknown>> => {
    const text = textOf(await readBody(request, MAX_JSON_BYTES));
    return await service.call("ledger.import", { path: newLedgerPath(folder, uploadedName(url)), text });
  };

  const otherFile = async (request: IncomingMessage, url: URL): Promise<Reply<unknown>> => {
    const bytes = await readBody(request, MAX_FILE_BYTES);
    return { ok: true, value: other.keep(uploadedName(url), bytes) };
  };

  const answer = async (request: IncomingMessage, url: URL): Promise<Reply<unknown> | null> => {
    switch (url.pathname) {
      case "/call":
        return isOfType(request, JSON_TYPE) ? await call(request) : WRONG_TYPE;
      case "/ledger-file":
        return isOfType(request, BYTES_TYPE) ? await ledgerFile(request, url) : WRONG_TYPE;
      case "/ledger-document":
        return isOfType(request, BYTES_TYPE) ? await ledgerDocument(request, url) : WRONG_TYPE;
      case "/other-ledger":
        return isOfType(request, BYTES_TYPE) ? await otherFile(request, url) : WRONG_TYPE;
      default: {
        const method = /^\/host\/([a-zA-Z]{1,40})$/.exec(url.pathname)?.[1];
        if (method === undefined) return null;
        if (!isOfType(request, JSON_TYPE)) return WRONG_TYPE;
        return await answerHostMethod(methods, method, jsonOf(await readBody(request, MAX_JSON_BYTES)), environment);
      }
    }
  };

  return async (request, url) => {
    try {
      return await answer(request, url);
    } catch (error) {
      return { ok: false, failure: failureOf(error, `POST ${url.pathname}`, environment) };
    }
  };
};
