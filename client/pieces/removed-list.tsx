import RotateCcw from "lucide-react/icons/rotate-ccw";
import { useBoardStore, useWholeBoard } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import type { Command } from "#shared/commands/command.ts";
import { type RemovableMap, removedRecords } from "#shared/selectors/removed.ts";
import { useAct } from "./use-act.ts";

export interface RemovedListProps {
  readonly of: RemovableMap;
  /** `2 songs were taken off the board`. */
  readonly title: (count: number) => string;
  readonly restore: Command<{ id: string }>;
}

/** What was taken off the board, each with a way back. Nothing is shown while there is nothing. */
export const RemovedList = ({ of, title, restore }: RemovedListProps) => {
  const store = useBoardStore();
  const board = useWholeBoard();
  const act = useAct();
  const removed = removedRecords(board, store.stored, of);
  if (removed.length === 0) return null;
  return (
    <Accordion summary={title(removed.length)} className="mt-8 border-t">
      <ul className="pb-4 pl-6">
        {removed.map(({ id, name }) => (
          <ListRow
            key={id}
            trail={
              <Button
                tone="quiet"
                icon={RotateCcw}
                aria-label={`Bring back ${name}`}
                onClick={() => act(restore, { id }, `Brought back: ${name}`)}
              >
                Bring back
              </Button>
            }
          >
            {name}
          </ListRow>
        ))}
      </ul>
    </Accordion>
  );
};
