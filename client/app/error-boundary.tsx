import { Component, type ReactNode } from "react";
import { Button } from "#client/ui/button.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { reloadOnceReachable } from "#client/ui/reload-once-reachable.ts";
import { TextLink } from "#client/ui/text-link.tsx";

interface ErrorBoundaryProps {
  /** A new value clears the error: going elsewhere is a way out. */
  readonly at: string;
  /** Called when the error is on the screen. */
  readonly onCaught?: () => void;
  readonly children: ReactNode;
}

interface Caught {
  readonly error: Error | null;
  readonly at: string;
}

/** Browsers word a part that could not be fetched differently; all of them name the module or the import. */
const isMissingPart = (error: Error): boolean =>
  /import|module/i.test(error.message) && error instanceof TypeError;

/** Keeps a fault within its screen: says what is safe, and offers ways out. */
export class ErrorBoundary extends Component<ErrorBoundaryProps, Caught> {
  override state: Caught = { error: null, at: this.props.at };

  static getDerivedStateFromError(error: unknown): Partial<Caught> {
    return { error: error instanceof Error ? error : new Error(String(error)) };
  }

  static getDerivedStateFromProps(props: ErrorBoundaryProps, state: Caught): Caught | null {
    return props.at === state.at ? null : { error: null, at: props.at };
  }

  #asked = false;

  override componentDidCatch(error: Error) {
    this.props.onCaught?.();
    if (this.#asked && isMissingPart(error)) void reloadOnceReachable();
    this.#asked = false;
  }

  readonly #tryAgain = (): void => {
    this.#asked = true;
    this.setState({ error: null });
  };

  override render() {
    const { error } = this.state;
    if (error === null) return this.props.children;
    const again = (
      <div className="flex flex-wrap items-center gap-3">
        <Button tone="main" onClick={this.#tryAgain}>
          Try again
        </Button>
        <TextLink standing href="#/">
          Go to the start
        </TextLink>
      </div>
    );
    return (
      <div className="py-8">
        {isMissingPart(error) ? (
          <ErrorNote title="This part of Tightrow is not on this device yet." action={again}>
            It needs a signal once. Everything you marked is kept on this device.
          </ErrorNote>
        ) : (
          <ErrorNote title="This screen stopped working." action={again}>
            <p>Everything you marked is kept on this device.</p>
            <p className="caption mt-1">What the browser says: {error.message}</p>
          </ErrorNote>
        )}
      </div>
    );
  }
}
