/** The one window: menus above, views at the left, the view in the middle, the inspector right, the status line below. */
import { useCallback, useEffect, useMemo } from "react";
import { listenToKeyboard } from "../actions/keyboard.ts";
import { createActionRegistry } from "../actions/registry.ts";
import { ActionsContext } from "../actions/use-actions.ts";
import { I18nProvider } from "react-aria-components";
import { Tour } from "../handbook/tour.tsx";
import { useRisk } from "../state/use-risk.ts";
import type { Session } from "../state/session.ts";
import { SessionContext, useApp, useSession } from "../state/use-session.ts";
import { views } from "../views.ts";
import { TrialBar } from "../what-if/trial-bar.tsx";
import { CopyContext, type CopyText } from "../widgets/copying.ts";
import { CaseBar } from "./case-bar.tsx";
import { DialogHost } from "./dialog-host.tsx";
import { EmptyState } from "./empty-state.tsx";
import { DropPlace } from "../drop/drop-place.tsx";
import { ErrorBoundary } from "./error-boundary.tsx";
import { InspectorPlace } from "./inspector-place.tsx";
import { MenuBar } from "./menu-bar.tsx";
import { NativeMenu } from "./native-menu.tsx";
import { NoticeArea } from "./notice-area.tsx";
import { ShellActions } from "./shell-actions.tsx";
import { StatusLine } from "./status-line.tsx";
import { ViewList } from "./view-list.tsx";
import "./shell.css";
import "./small-window.css";

export const Shell = ({ session }: { session: Session }) => {
  const registry = useMemo(() => createActionRegistry(), []);
  const copyText = useCallback<CopyText>(
    (text, what) =>
      void session.client.host.copyText(text).then((reply) => {
        if (reply.ok) session.tell("information", `Copied: ${what}.`);
        else session.fail(reply.failure);
      }),
    [session],
  );
  useEffect(() => {
    const { platform, kind } = session.client.host;
    return listenToKeyboard(registry, platform, kind, (reason) => session.tell("information", reason));
  }, [registry, session]);
  return (
    <I18nProvider locale="en-GB">
      <SessionContext.Provider value={session}>
        <ActionsContext.Provider value={registry}>
          <CopyContext.Provider value={copyText}>
            <ShellActions />
            <NativeMenu />
            <Frame />
            <DialogHost />
            <DropPlace />
          </CopyContext.Provider>
        </ActionsContext.Provider>
      </SessionContext.Provider>
    </I18nProvider>
  );
};

const Frame = () => {
  const phase = useApp((state) => state.phase);
  const { client } = useSession();
  return (
    <div className="frame">
      <a className="skip" href="#view">
        Skip to main content
      </a>
      {client.host.kind === "browser" && <MenuBar />}
      <NoticeArea />
      {phase === "ready" ? <Workplace /> : <EmptyState />}
      <Tour />
      <StatusLine />
      <LiveRegion />
    </div>
  );
};

const Workplace = () => {
  const shown = useApp((state) => state.view);
  const view = views.find((candidate) => candidate.id === shown) ?? views[0];
  if (view === undefined) return null;
  const View = view.component;
  return (
    <div className="workplace">
      <RiskWatch />
      <ViewList shown={view.id} />
      <main id="view" className="view" tabIndex={-1} aria-label={view.title}>
        <CaseBar title={view.title} />
        <TrialBar />
        <ErrorBoundary key={view.id} what={view.title}>
          <View />
        </ErrorBoundary>
      </main>
      <InspectorPlace isRoomTaken={view.isWhole === true} />
    </div>
  );
};

/** Keeps the quick answer asked for after every change, whichever view is shown. */
const RiskWatch = () => {
  useRisk();
  return null;
};

const LiveRegion = () => {
  const announcement = useApp((state) => state.announcement);
  return (
    <output className="unseen" aria-live="polite">
      {announcement}
    </output>
  );
};
