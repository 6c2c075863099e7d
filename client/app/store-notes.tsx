import { useSyncExternalStore } from "react";
import { useBoardStore } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";

/** What happened to this device's copy of the board, until somebody has read it. */
export const StoreNotes = () => {
  const { outbox } = useBoardStore();
  const notes = useSyncExternalStore(outbox.subscribe, () => outbox.saveState().notes);
  return (
    <div role="status" className="no-print">
      {notes.map((note) => (
        <div key={note} className="flex flex-wrap items-center gap-x-4 border-b border-line py-1">
          <p className="min-w-0 flex-1 basis-60">{note}</p>
          <Button tone="quiet" onClick={() => outbox.forgetNote(note)}>
            I have read this
          </Button>
        </div>
      ))}
    </div>
  );
};
