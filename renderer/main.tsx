/** Where the page begins: the rule against HTML from text, the bridge, the session, the shell. */
import "./bridge/without-compiling.ts";
import "./theme/theme.ts";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { connect } from "./bridge/connect.ts";
import { forbidHtmlFromText } from "./bridge/page-policy.ts";
import { ErrorBoundary } from "./shell/error-boundary.tsx";
import { Shell } from "./shell/shell.tsx";
import { startSession } from "./state/start.ts";

forbidHtmlFromText();
const root = document.getElementById("root");
if (root === null) throw new Error("The page has no place for Coldstock.");
const session = startSession(connect());
createRoot(root).render(
  <StrictMode>
    <ErrorBoundary what="Coldstock">
      <Shell session={session} />
    </ErrorBoundary>
  </StrictMode>,
);
