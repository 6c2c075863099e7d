import { useState } from "react";
import { Button } from "#client/ui/button.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { GateLine } from "#shared/selectors/gate-lines.ts";

export interface WaiveDialogProps {
  readonly line: GateLine;
  readonly onClose: () => void;
  readonly onWaive: (note: string) => void;
}

/** Lets a gate pass for one night. Everybody will read who did it and why, so the reason is asked for. */
export const WaiveDialog = ({ line, onClose, onWaive }: WaiveDialogProps) => {
  const [note, setNote] = useState("");
  const [error, setError] = useState<string | undefined>(undefined);
  const waive = (): void => {
    if (note.trim() === "") setError("Say why it may pass, so that the band can rely on it.");
    else onWaive(note.trim());
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title={`Let this pass: ${line.heading}`}
      actions={
        <>
          <Button tone="main" onClick={waive}>
            Waive for this gig
          </Button>
          <Button tone="quiet" onClick={onClose}>
            Leave it
          </Button>
        </>
      }
    >
      <p>{line.sentence}</p>
      <p className="caption mt-1 mb-4">It counts for this gig only and changes no score.</p>
      <TextField
        label="Why it may pass"
        value={note}
        maxLength={200}
        error={error}
        data-first-focus
        onChange={setNote}
        onKeyDown={(event) => event.key === "Enter" && waive()}
      />
    </Dialog>
  );
};
