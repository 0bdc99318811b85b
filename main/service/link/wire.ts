/** What passes between a host and the service's own process. */
import type { Reply } from "../../../app/ground/failure.ts";
import type { ServiceEvent } from "../service.ts";

export type ToService =
  | {
      readonly kind: "call";
      readonly callId: number;
      readonly name: unknown;
      readonly input: unknown;
      readonly jobId: unknown;
    }
  | { readonly kind: "close" };

export type FromService =
  | { readonly kind: "reply"; readonly callId: number; readonly reply: Reply<unknown> }
  | { readonly kind: "event"; readonly event: ServiceEvent };
