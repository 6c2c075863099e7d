import type { ReactNode } from "react";
import { Button } from "#client/ui/button.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { reloadOnceReachable } from "#client/ui/reload-once-reachable.ts";
import type { Asked } from "./use-asked.ts";

export interface AskedViewProps<T> {
  readonly asked: Asked<T>;
  readonly children: (value: T) => ReactNode;
}

/** What the server answered; a line while it is asked, and the reason with another try when it did not work out. */
export const AskedView = <T,>({ asked: { answer, again }, children }: AskedViewProps<T>) => {
  const tryAgain = async (): Promise<void> => {
    const got = await again();
    if (!got.ok && got.error.unreached) await reloadOnceReachable();
  };
  if (answer === null) return <p className="caption min-h-12 py-3">Asking the server</p>;
  if (answer.ok) return children(answer.value);
  return (
    <ErrorNote
      title={answer.error.message}
      action={answer.error.retriable ? <Button onClick={() => void tryAgain()}>Try again</Button> : undefined}
    >
      {answer.error.retriable
        ? "This list lies on the server and needs a signal. The board works without."
        : null}
    </ErrorNote>
  );
};
