import { type ReactNode, useState } from "react";
import { Button } from "#client/ui/button.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import type { Result } from "#shared/lib/result.ts";

export interface ConfirmProps {
  /** A question. */
  readonly title: string;
  /** The answer that does it. */
  readonly yes: string;
  /** What will happen. */
  readonly children: ReactNode;
  /** Does it; a refusal is shown inside, with the way out still open. On success the caller closes. */
  readonly onYes: () => Promise<Result<unknown, { readonly message: string }>>;
  readonly onClose: () => void;
  /** Something that takes away; without it the answer is the main thing to do. */
  readonly danger?: boolean;
}

/** A question before something that cannot be undone, or that others will notice. */
export const Confirm = ({ title, yes, children, onYes, onClose, danger = true }: ConfirmProps) => {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState("");
  const answer = async () => {
    setBusy(true);
    setProblem("");
    const done = await onYes();
    setBusy(false);
    if (!done.ok) setProblem(done.error.message);
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title={title}
      actions={
        <>
          <Button tone={danger ? "danger" : "main"} disabled={busy} onClick={() => void answer()}>
            {yes}
          </Button>
          <Button data-first-focus onClick={onClose}>
            Leave it
          </Button>
        </>
      }
    >
      <div className="flex flex-col gap-2">{children}</div>
      {problem ? (
        <div className="mt-4">
          <ErrorNote title={problem} />
        </div>
      ) : null}
    </Dialog>
  );
};
