/** Long work under way: a line that fills, what is being done, and a way to stop it. */
import { Label, ProgressBar } from "react-aria-components";
import { Button } from "./button.tsx";
import "./progress.css";

interface ProgressProps {
  readonly label: string;
  /** 0 to 1; null: cannot be said. */
  readonly share: number | null;
  /** What is done, how fast, how long still. */
  readonly figures?: string;
  readonly onStop?: () => void;
}

export const Progress = ({ label, share, figures = "", onStop }: ProgressProps) => (
  <div className="progress">
    <ProgressBar className="progress-bar" {...(share === null ? { isIndeterminate: true } : { value: share * 100 })}>
      {({ percentage }) => (
        <>
          <Label className="progress-label">{label}</Label>
          <span className="progress-line">
            <span
              className={share === null ? "progress-fill progress-unknown" : "progress-fill"}
              style={{ inlineSize: `${percentage ?? 30}%` }}
            />
          </span>
        </>
      )}
    </ProgressBar>
    {figures !== "" && <span className="progress-figures figures">{figures}</span>}
    {/* Beside the bar, not in it: what stands in a progress bar is not reached by assistive programs. */}
    {onStop !== undefined && (
      <Button look="quiet" onPress={onStop}>
        Stop
      </Button>
    )}
  </div>
);
