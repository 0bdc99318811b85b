/**
 * The browser host as the crash tests start it: the same wire as the service's own process, but the service lies within
 * the process that serves the page, and what a page may ask comes through its doors. `node browser-host.js`, started by
 * `service-child.ts`.
 */
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { composeService } from "../../main/service/compose.ts";
import { systemEnvironment } from "../../main/service/environment.ts";
import { parentPort } from "../../main/service/parent-port.ts";
import { openPageDoor } from "./page-door.ts";

const log = (line: string): void => void process.stderr.write(`${line}\n`);
/** In the data folder of the tests, which goes with them: a host that is killed takes nothing away. */
const home = process.env["COLDSTOCK_HOME"] ?? tmpdir();
mkdirSync(home, { recursive: true });
const folder = mkdtempSync(join(home, "host-"));
const port = parentPort();
const service = composeService(true, log);
const door = await openPageDoor(service, folder, systemEnvironment(log));

let isLeaving = false;
const leave = (): void => {
  if (isLeaving) return;
  isLeaving = true;
  void door
    .close()
    .then(() => service.close())
    .finally(() => {
      rmSync(folder, { recursive: true, force: true });
      process.exit(0);
    });
};

port.onMessage((message) => {
  if (message.kind === "close") {
    leave();
    return;
  }
  const { callId, name, input } = message;
  void door.ask(name, input).then((reply) => port.post({ kind: "reply", callId, reply }));
});
port.onGone(leave);
