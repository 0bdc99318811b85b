/** A page on the real service and a real ledger file in a temporary folder, for tests of views in jsdom. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { ReactNode } from "react";
import { cleanup, render, waitFor } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import type { Bridge } from "../../app/contract/bridge.ts";
import { composeService } from "../../main/service/compose.ts";
import { createActionRegistry } from "../../renderer/actions/registry.ts";
import { ActionsContext } from "../../renderer/actions/use-actions.ts";
import { createClient } from "../../renderer/state/client.ts";
import { type AppState, initialState } from "../../renderer/state/app-state.ts";
import { createSession } from "../../renderer/state/session.ts";
import { createStore } from "../../renderer/state/store.ts";
import { SessionContext } from "../../renderer/state/use-session.ts";

const unused = (): never => {
  throw new Error("not part of this test");
};

/** Opens the demonstration Tarn and shows `content`; close it at the end of the test. */
export const openPage = async (content: ReactNode) => {
  const folder = mkdtempSync(join(tmpdir(), "coldstock-page-"));
  const service = composeService(false, () => undefined);
  const bridge: Bridge = {
    call: (async (name: string, input: unknown, jobId?: string) =>
      await service.dispatch(name, input, jobId)) as Bridge["call"],
    on: (event, listener) =>
      service.listen((told) => {
        if (told.event === event) listener(told.payload as never);
      }),
    host: {
      kind: "browser",
      platform: "linux",
      ledgers: async () => await Promise.resolve({ ok: true, value: [] }),
      openLedger: unused,
      pickLedger: unused,
      createLedger: unused,
      openDemonstration: unused,
      importLedger: unused,
      saveCopy: unused,
      pickRows: unused,
      holdDropped: unused,
      importHeld: unused,
      readHeld: unused,
      pickOther: unused,
      previewMerge: unused,
      takeMerge: unused,
      saveText: unused,
      saveFile: unused,
      print: unused,
      copyText: async (text) => {
        await navigator.clipboard.writeText(text);
        return { ok: true, value: null };
      },
      copyPicture: unused,
      showActions: () => undefined,
      showTheme: () => undefined,
    },
  };
  const made = await service.call("ledger.demo", { path: join(folder, "tarn.coldstock"), which: "tarn" });
  if (!made.ok) throw new Error(made.failure.message);
  const store = createStore<AppState>(initialState);
  const session = createSession(createClient(bridge), store);
  await session.refresh();
  const user = userEvent.setup();
  render(
    <SessionContext.Provider value={session}>
      <ActionsContext.Provider value={createActionRegistry()}>{content}</ActionsContext.Provider>
    </SessionContext.Provider>,
  );
  const plan = () => {
    const { current } = store.get();
    if (current === null) throw new Error("no plan");
    return current.plan;
  };
  return {
    user,
    session,
    store,
    plan,
    /** Waits until the service has counted up from `revision`. */
    saved: (revision: number) =>
      waitFor(() => {
        if ((store.get().ledger?.revision ?? 0) <= revision) throw new Error("nothing was saved");
      }),
    revision: () => store.get().ledger?.revision ?? 0,
    close: async () => {
      cleanup();
      await service.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
};
