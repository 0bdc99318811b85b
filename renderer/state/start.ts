/** Starts the page's session: first fetch, and listening to what the host tells. */
import type { Bridge } from "../../app/contract/bridge.ts";
import { CONTRACT_VERSION } from "../../app/contract/contract.ts";
import { createClient } from "./client.ts";
import { applyTheme, storedTheme } from "../theme/theme-choice.ts";
import { type AppState, initialState } from "./app-state.ts";
import { rememberedMassUnit } from "./remembered.ts";
import { type Session, createSession } from "./session.ts";
import { rememberShownOnly, rememberedShownOnly, shownOnlyRefusal } from "./shown-only.ts";
import { createStore } from "./store.ts";

const follow = (session: Session): void => {
  const { client, store } = session;
  client.on("changed", ({ revision, path }) => {
    const { ledger } = store.get();
    if (ledger?.path !== path || ledger.revision !== revision) void session.refresh();
  });
  let wasShownOnly = store.get().isShownOnly;
  store.subscribe(() => {
    const { isShownOnly } = store.get();
    if (isShownOnly !== wasShownOnly) rememberShownOnly(isShownOnly);
    wasShownOnly = isShownOnly;
  });
  client.on("notice", ({ tone, words }) => session.tell(tone, words));
};

export const startSession = (bridge: Bridge): Session => {
  const theme = storedTheme();
  applyTheme(theme);
  const store = createStore<AppState>({
    ...initialState,
    theme,
    massUnit: rememberedMassUnit(),
    isShownOnly: rememberedShownOnly(),
  });
  const session = createSession(
    createClient(bridge, () => shownOnlyRefusal(store.get())),
    store,
  );
  follow(session);
  void session.client.call("service.hello", {}).then(async (reply) => {
    if (reply.ok && reply.value.contractVersion !== CONTRACT_VERSION) {
      const message =
        "This page and the service behind it are of different versions. Close Coldstock and start it again.";
      store.set({ phase: "failed", failure: { code: "forbidden", message, field: null } });
      return;
    }
    await session.refresh();
  });
  return session;
};
