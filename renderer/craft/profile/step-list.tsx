/** The steps of a profile: chosen, added, moved and removed, by mouse (drag) and by keyboard (Alt with arrows, Delete). */
import { type KeyboardEvent, useEffect, useRef } from "react";
import { ListBox, ListBoxItem, useDragAndDrop } from "react-aria-components";
import type { Lander } from "../../../app/entity/lander.ts";
import type { ProfileStep } from "../../../app/entity/profile.ts";
import { stagesOf } from "../../../app/sortie/stage.ts";
import { Button } from "../../widgets/button.tsx";
import { MenuButton } from "../../widgets/menu-button.tsx";
import { addStep, moveStep, removeStep, type StepList as Steps } from "./edit-steps.ts";
import { stepKindWords, stepSummary } from "./step-words.ts";

interface StepListProps {
  readonly steps: readonly ProfileStep[];
  readonly at: number;
  readonly lander: Lander;
  readonly isReadOnly: boolean;
  /** Steps with a finding. */
  readonly marked: ReadonlySet<number>;
  readonly onShow: (at: number) => void;
  readonly onChange: (next: Steps, words: string) => void;
}

const addable = ["burn", "thruster burn", "stay", "load change", "jettison", "leave cache", "drop stage"] as const;

export const StepList = (props: StepListProps) => {
  const { steps, at, lander, isReadOnly, onShow, onChange } = props;
  const items = steps.map((step, index) => ({ id: index, step }));
  const list = useRef<HTMLDivElement>(null);
  // Steps bear no ids, so the list's focus stays at the place; it must go along with a step that is moved or removed.
  const follows = useRef(false);
  useEffect(() => {
    if (!follows.current) return;
    follows.current = false;
    list.current?.querySelector<HTMLElement>(`[data-key="${String(at)}"]`)?.focus();
  });
  const move = (from: number, to: number): void => onChange(moveStep(steps, from, to), "order of steps");
  const remove = (): void => {
    if (steps[at] !== undefined) onChange(removeStep(steps, at), "steps");
  };
  const { dragAndDropHooks } = useDragAndDrop({
    isDisabled: isReadOnly,
    getItems: (keys) => [...keys].map((key) => ({ "text/plain": steps[Number(key)]?.name ?? "" })),
    onReorder: ({ keys, target }) => {
      const from = Number([...keys][0]);
      const onto = Number(target.key);
      const index = target.dropPosition === "before" ? onto : onto + 1;
      move(from, index > from ? index - 1 : index);
    },
  });
  const onKeyDown = (event: KeyboardEvent): void => {
    if (isReadOnly) return;
    if (event.altKey && (event.key === "ArrowUp" || event.key === "ArrowDown")) {
      event.preventDefault();
      event.stopPropagation();
      follows.current = true;
      move(at, at + (event.key === "ArrowUp" ? -1 : 1));
    } else if (event.key === "Delete" || event.key === "Backspace") {
      event.preventDefault();
      event.stopPropagation();
      follows.current = true;
      remove();
    }
  };
  return (
    <div className="step-list">
      <div ref={list} onKeyDownCapture={onKeyDown}>
        <ListBox
          aria-label="Steps of the profile"
          className="step-box"
          items={items}
          dependencies={[props.marked]}
          selectionMode="single"
          selectionBehavior="replace"
          disallowEmptySelection
          selectedKeys={[at]}
          onSelectionChange={(keys) => {
            const [key] = keys === "all" ? [0] : [...keys];
            if (key !== undefined) onShow(Number(key));
          }}
          dragAndDropHooks={dragAndDropHooks}
          renderEmptyState={() => <p className="form-advice">No steps yet. Add the first one.</p>}
        >
          {({ id, step }) => (
            <ListBoxItem id={id} textValue={step.name} className="step-item">
              <span className="step-grip" aria-hidden="true">
                ⠿
              </span>
              <span className="step-number figures">{id + 1}</span>
              <span className="step-name">
                {step.name}
                {props.marked.has(id) && <span className="step-mark"> has a finding</span>}
              </span>
              <span className="step-words" title={stepSummary(step)}>
                {stepSummary(step)}
              </span>
            </ListBoxItem>
          )}
        </ListBox>
      </div>
      {!isReadOnly && (
        <div className="step-tools">
          <MenuButton
            label="Add a step"
            choices={addable.map((kind) => ({
              id: kind,
              label: stepKindWords[kind],
              unable:
                kind === "thruster burn" && stagesOf(lander).every(({ thrusters }) => thrusters.length === 0)
                  ? "The lander’s data sheet has no thrusters."
                  : null,
              run: () => onChange(addStep(steps, at, kind, lander), "steps"),
            }))}
          />
          <Button look="quiet" unable={at <= 0 ? "It is the first step." : null} onPress={() => move(at, at - 1)}>
            Up
          </Button>
          <Button
            look="quiet"
            unable={at >= steps.length - 1 ? "It is the last step." : null}
            onPress={() => move(at, at + 1)}
          >
            Down
          </Button>
          <Button look="quiet" unable={steps.length === 0 ? "There is no step." : null} onPress={remove}>
            Remove
          </Button>
        </div>
      )}
    </div>
  );
};
