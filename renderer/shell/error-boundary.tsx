/** Catches a fault of the program while something is drawn: says what, keeps the rest, offers to try again. */
import { Component, type ReactNode } from "react";

interface Props {
  /** What failed, in words: "Timeline". */
  readonly what: string;
  readonly children: ReactNode;
}

interface State {
  readonly fault: Error | null;
}

export class ErrorBoundary extends Component<Props, State> {
  override readonly state: State = { fault: null };

  static getDerivedStateFromError(fault: unknown): State {
    return { fault: fault instanceof Error ? fault : new Error(String(fault)) };
  }

  override render(): ReactNode {
    const { fault } = this.state;
    if (fault === null) return this.props.children;
    return (
      <section className="fault" role="alert">
        <h2>{this.props.what} cannot be shown</h2>
        <p>
          This is a fault of Coldstock. Your ledger is not touched by it: everything you entered has been saved as you
          entered it.
        </p>
        <p className="figures">{fault.message}</p>
        <p>
          <button type="button" className="fault-again" onClick={() => this.setState({ fault: null })}>
            Try again
          </button>
        </p>
      </section>
    );
  }
}
