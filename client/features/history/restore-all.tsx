import RotateCcw from "lucide-react/icons/rotate-ccw";
import { useState } from "react";
import { useLocation } from "wouter";
import { Confirm } from "#client/pieces/confirm.tsx";
import { boardLink } from "#client/pieces/links.ts";
import { useAct } from "#client/pieces/use-act.ts";
import { useBoardStore } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { restoreBoard } from "#shared/commands/restore-board.ts";
import type { RestoreWrite } from "#shared/commands/restore-write.ts";
import type { StoredValues } from "#shared/document/stored-values.ts";
import { restoreWrites } from "#shared/history/restore-writes.ts";
import { ok } from "#shared/lib/result.ts";
import { restorePreview } from "#shared/selectors/history/restore-preview.ts";

export interface RestoreAllProps {
  /** The moment (ms). */
  readonly moment: number;
  /** The moment in words: `4 March at 20:14`. */
  readonly words: string;
  readonly past: StoredValues;
}

/** Takes the whole board back to a moment, after saying in numbers what that changes. */
export const RestoreAll = ({ moment, words, past }: RestoreAllProps) => {
  const store = useBoardStore();
  const act = useAct();
  const [, go] = useLocation();
  const [writes, setWrites] = useState<readonly RestoreWrite[] | null>(null);
  const restore = async () => {
    if (writes === null) return ok(null);
    const done = act(restoreBoard, { moment, writes: [...writes] }, `The board is back at ${words}`);
    setWrites(null);
    if (done) go(boardLink());
    return ok(null);
  };
  return (
    <>
      <Button icon={RotateCcw} onClick={() => setWrites(restoreWrites(store.stored, past))}>
        Restore the whole board to this moment
      </Button>
      {writes === null ? null : writes.length === 0 ? (
        <p role="status" className="mt-2 text-quiet">
          The board reads now as it did then. There is nothing to restore.
        </p>
      ) : (
        <Confirm
          title={`Restore the board to ${words}?`}
          yes="Restore it"
          onYes={restore}
          onClose={() => setWrites(null)}
        >
          <p>For everybody in the band:</p>
          <ul className="list-disc pl-5">
            {restorePreview(writes).map(({ words: line }) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          <p className="text-quiet">
            Nothing is deleted: this is one more change, and it can be taken back by Undo or from the history.
            What the others change meanwhile stays.
          </p>
        </Confirm>
      )}
    </>
  );
};
