/** The list of views at the left. */
import { acceleratorText, keysIn } from "../actions/accelerator.ts";
import { actionOf } from "../actions/registry.ts";
import { useSession } from "../state/use-session.ts";
import type { ViewId } from "../state/app-state.ts";
import { views } from "../views.ts";

export const ViewList = ({ shown }: { shown: ViewId }) => {
  const session = useSession();
  return (
    <nav className="view-list" aria-label="Views">
      <ul>
        {views.map((view) => {
          const { platform, kind } = session.client.host;
          const pressed = keysIn(actionOf(view.action), kind);
          const keys = pressed === null ? null : acceleratorText(pressed, platform);
          return (
            <li key={view.id}>
              <button
                type="button"
                className="view-choice"
                aria-current={view.id === shown ? "page" : undefined}
                title={keys === null ? view.title : `${view.title} (${keys})`}
                onClick={() => session.show(view.id)}
              >
                {view.title}
              </button>
            </li>
          );
        })}
      </ul>
    </nav>
  );
};
