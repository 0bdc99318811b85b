/** One question to the browser host. Never rejects; a host that does not answer is a failure like any other. */
import type { Reply } from "../../app/ground/failure.ts";
import { fromTypedJson } from "../../app/contract/typed-json.ts";
import { nonFiniteField } from "./non-finite.ts";
import { keyHeaders } from "./page-key.ts";

const failure = (
  code: "invalid input" | "storage" | "defect",
  message: string,
  field: string | null,
): Reply<never> => ({
  ok: false,
  failure: { code, message, field },
});

const send = async <T>(address: string, type: string, body: BodyInit): Promise<Reply<T>> => {
  try {
    const response = await fetch(address, {
      method: "POST",
      headers: { "content-type": type, ...keyHeaders() },
      body,
      credentials: "same-origin",
      redirect: "error",
    });
    return fromTypedJson(await response.text()) as Reply<T>;
  } catch {
    return failure(
      "storage",
      "The program behind this page does not answer. Start it again and open the address it prints; " +
        "every change that was acknowledged is in the ledger file.",
      null,
    );
  }
};

/** Sends plain data as JSON. JSON would turn NaN and Infinity into null, which can mean something: they are refused here. */
export const post = async <T>(address: string, question: unknown): Promise<Reply<T>> => {
  const field = nonFiniteField(question);
  if (field !== null) return failure("invalid input", "A number here is not finite.", field);
  return await send<T>(address, "application/json", JSON.stringify(question));
};

/** Sends a file as it is. */
export const postFile = async <T>(address: string, file: Blob): Promise<Reply<T>> =>
  await send<T>(address, "application/octet-stream", file);
