/** The program of the service's own process: answers its host's calls until the host closes it or goes. */
import { composeService } from "./compose.ts";
import { parentPort } from "./parent-port.ts";

const port = parentPort();
const service = composeService(true, (line) => process.stderr.write(`${line}\n`));

service.listen((event) => port.post({ kind: "event", event }));

let isLeaving = false;
const leave = (): void => {
  if (isLeaving) return;
  isLeaving = true;
  void service.close().finally(() => process.exit(0));
};

port.onMessage((message) => {
  if (message.kind === "close") {
    leave();
    return;
  }
  void service
    .dispatch(message.name, message.input, message.jobId)
    .then((reply) => port.post({ kind: "reply", callId: message.callId, reply }));
});
port.onGone(leave);
