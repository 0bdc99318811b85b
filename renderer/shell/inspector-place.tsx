/** The inspector's place beside the view: comes with a selection, folds away without one, its edge is drawn to size. */
import {
  type KeyboardEvent,
  type PointerEvent,
  type RefObject,
  useEffect,
  useLayoutEffect,
  useRef,
  useState,
} from "react";
import { useAction } from "../actions/use-actions.ts";
import { Inspector } from "../inspector/inspector.tsx";
import { isSetUp } from "../start/setup-steps.ts";
import { INSPECTOR_WIDTH, fittingWidth, isInspectorShown, toggledInspector } from "../state/inspector-choice.ts";
import { rememberInspectorWidth, rememberedInspectorWidth } from "../state/remembered.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { ErrorBoundary } from "./error-boundary.tsx";
import "./inspector-place.css";

/** The second press of a double-click still meets the place that the first one met. */
const FOLDS_AFTER_MS = 450;
const STEP_PX = 16;

/** Comes at once, goes a moment later. */
const useFolding = (isWanted: boolean): boolean => {
  const [isThere, setThere] = useState(isWanted);
  if (isWanted && !isThere) setThere(true);
  useEffect(() => {
    if (isWanted) return undefined;
    const timer = setTimeout(() => setThere(false), FOLDS_AFTER_MS);
    return () => clearTimeout(timer);
  }, [isWanted]);
  return isWanted || isThere;
};

/** Made anew for each thing: it is read from its title on, however far down the one before was. */
const FromTheTop = ({ scroller }: { scroller: RefObject<HTMLDivElement | null> }) => {
  useLayoutEffect(() => {
    scroller.current?.scrollTo(0, 0);
  }, [scroller]);
  return null;
};

export const InspectorPlace = ({ isRoomTaken }: { isRoomTaken: boolean }) => {
  const { store } = useSession();
  const choice = useApp((state) => state.inspector);
  const hasContent = useApp(
    ({ selection, current, ledger }) =>
      selection !== null || ledger?.planCases.length === 0 || (current !== null && !isSetUp(current.plan)),
  );
  const isWanted = isInspectorShown(choice, hasContent);
  useAction("view.inspector", () => store.set({ inspector: toggledInspector(choice, hasContent) }), {
    isOn: isWanted,
  });
  const isThere = useFolding(isWanted);
  const scroller = useRef<HTMLDivElement>(null);
  const selection = useApp((state) => state.selection);
  const [width, setWidth] = useState(rememberedInspectorWidth);
  return (
    // Kept while hidden: it carries out deleting and duplicating what is selected.
    <aside
      className="inspector-place"
      aria-label="Inspector"
      hidden={isRoomTaken || !(choice === "away" ? isWanted : isThere)}
      style={{ inlineSize: width }}
    >
      <Edge width={width} onWidth={setWidth} />
      <div className="inspector-scroll" ref={scroller}>
        <FromTheTop key={`${selection?.kind ?? ""}/${selection?.id ?? ""}`} scroller={scroller} />
        <ErrorBoundary what="Inspector">
          <Inspector />
        </ErrorBoundary>
      </div>
    </aside>
  );
};

/** The edge between view and inspector: dragged, or moved by the arrow keys; a double-click gives the usual width. */
const Edge = ({ width, onWidth }: { width: number; onWidth: (width: number) => void }) => {
  const held = useRef<{ readonly x: number; readonly width: number } | null>(null);
  const take = (wanted: number): void => {
    const next = fittingWidth(wanted);
    onWidth(next);
    rememberInspectorWidth(next);
  };
  const onPointerDown = (event: PointerEvent<HTMLElement>): void => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    held.current = { x: event.clientX, width };
  };
  const onPointerMove = (event: PointerEvent<HTMLElement>): void => {
    if (held.current !== null) take(held.current.width + held.current.x - event.clientX);
  };
  const letGo = (): void => {
    held.current = null;
  };
  const onKeyDown = (event: KeyboardEvent<HTMLElement>): void => {
    const to: Partial<Record<string, number>> = {
      ArrowLeft: width + STEP_PX,
      ArrowRight: width - STEP_PX,
      Home: INSPECTOR_WIDTH.least,
      End: INSPECTOR_WIDTH.most,
      Enter: INSPECTOR_WIDTH.usual,
    };
    const wanted = to[event.key];
    if (wanted === undefined) return;
    event.preventDefault();
    take(wanted);
  };
  return (
    // eslint-disable-next-line jsx-a11y/no-noninteractive-element-interactions -- a separator with a value is operated
    <div
      // eslint-disable-next-line jsx-a11y/prefer-tag-over-role -- a rule that is moved, which <hr> is not
      role="separator"
      // eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- as above
      tabIndex={0}
      className="inspector-edge"
      aria-orientation="vertical"
      aria-label="Width of the inspector"
      aria-valuenow={width}
      aria-valuemin={INSPECTOR_WIDTH.least}
      aria-valuemax={INSPECTOR_WIDTH.most}
      title="Drag to change the inspector’s width; double-click for the usual width"
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onPointerUp={letGo}
      onPointerCancel={letGo}
      onDoubleClick={() => take(INSPECTOR_WIDTH.usual)}
      onKeyDown={onKeyDown}
    />
  );
};
