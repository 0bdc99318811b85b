/** The real service in a real process of its own, asked over its own wire, killed for real. */
import type { Input, OperationName, Output } from "../../app/contract/contract.ts";
import type { Reply } from "../../app/ground/failure.ts";
import { startNodeChild } from "../../main/service/link/node-child.ts";
import { serviceProgram } from "../suite/programs.ts";

export interface ServiceChild {
  /** Resolves with the reply, or null when the process went before it answered. */
  ask<N extends OperationName>(name: N, input: Input<N>): Promise<Reply<Output<N>> | null>;
  /** The same for calls that must be answered, and well. */
  must<N extends OperationName>(name: N, input: Input<N>): Promise<Output<N>>;
  /** SIGKILL; resolves when the process is gone. */
  kill(): Promise<void>;
  /** Asks it to close its file, and waits. */
  close(): Promise<void>;
}

/** `node` may be replaced, so that the service runs under a limit; `program`, so that another host holds it. */
export const startService = (node = process.execPath, program = serviceProgram): ServiceChild => {
  let said = "";
  const child = startNodeChild(node, program, (text) => (said += text));
  const waiting = new Map<number, (reply: Reply<unknown> | null) => void>();
  let nextCall = 1;
  let isGone = false;
  child.onMessage((message) => {
    if (message.kind !== "reply") return;
    waiting.get(message.callId)?.(message.reply);
    waiting.delete(message.callId);
  });
  const gone = new Promise<void>((resolve) =>
    child.onExit(() => {
      isGone = true;
      for (const answer of waiting.values()) answer(null);
      waiting.clear();
      resolve();
    }),
  );

  const ask = async <N extends OperationName>(name: N, input: Input<N>): Promise<Reply<Output<N>> | null> => {
    if (isGone) return null;
    const callId = nextCall++;
    const reply = await new Promise<Reply<unknown> | null>((resolve) => {
      waiting.set(callId, resolve);
      child.post({ kind: "call", callId, name, input, jobId: null });
    });
    return reply as Reply<Output<N>> | null;
  };

  return {
    ask,
    must: async (name, input) => {
      const reply = await ask(name, input);
      if (reply === null) throw new Error(`the service went before it answered ${name}: ${said}`);
      if (!reply.ok)
        throw new Error(`${name}: ${reply.failure.code}: ${reply.failure.message} (${reply.failure.field})`);
      return reply.value;
    },
    kill: () => {
      child.kill();
      return gone;
    },
    close: () => {
      child.post({ kind: "close" });
      return gone;
    },
  };
};
