/** A service's process that answers every call with arrays of numbers: to see what the way to its host makes of them. */
import { parentPort } from "../../../main/service/parent-port.ts";

const port = parentPort();

port.onMessage((message) => {
  if (message.kind === "close") process.exit(0);
  const value = { levels: new Float64Array([NaN, -0, 0.1, Infinity]), counts: new Uint32Array([4_294_967_295]) };
  const progress = { jobId: "a#1", share: 0.5, words: "Running", partial: value };
  port.post({ kind: "event", event: { event: "progress", payload: progress } });
  port.post({ kind: "reply", callId: message.callId, reply: { ok: true, value } });
});
