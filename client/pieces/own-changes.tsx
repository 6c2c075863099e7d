import { useBand, useBoardStore, useOwnChanges, useSaveState } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button, type ControlSize } from "#client/ui/button.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { useToast } from "#client/ui/toast.tsx";
import { clockWords } from "#shared/lib/moment-words.ts";

export interface OwnChangesProps {
  /** Most changes in sight; older ones are beyond what a thumb undoes. */
  readonly most?: number;
  readonly size?: ControlSize;
  /** Shown while there is nothing to take back; without it the list is then absent. */
  readonly nothing?: string;
}

/** Built only while it is unfolded: the line above it is drawn anew with every change. */
const Changes = ({ most, size }: Required<Pick<OwnChangesProps, "most" | "size">>) => {
  const store = useBoardStore();
  const toast = useToast();
  const changes = useOwnChanges();
  const { connection } = useSaveState();
  const { timeZone } = useBand();
  // What the outbox no longer knows was saved long ago.
  const stateOf = (id: string): string =>
    connection === "local"
      ? "on this device"
      : (store.outbox.stateOf(id) ?? "saved").replace("phone", "device");
  return (
    <ol className="pl-6">
      {changes.slice(0, most).map((change) => (
        <ListRow
          key={change.id}
          size={size}
          note={`${clockWords(change.at, timeZone)}, ${stateOf(change.id)}`}
          trail={
            <Button
              tone="quiet"
              size={size}
              aria-label={`Undo: ${change.label}`}
              onClick={() => {
                const undone = store.undo(change);
                toast({ text: undone.ok ? undone.value.label : undone.error.sentence });
              }}
            >
              Undo
            </Button>
          }
        >
          {change.label}
        </ListRow>
      ))}
    </ol>
  );
};

/**
 * What was done on this device in this visit, latest first: when, whether it is saved, and its undo. For when the
 * toast is gone.
 */
export const OwnChanges = ({ most = 12, size = "room", nothing }: OwnChangesProps) => {
  const { length } = useOwnChanges();
  if (length === 0 && nothing === undefined) return null;
  return (
    <Accordion size={size} className="no-print" summary={`Your own changes on this visit: ${length}`}>
      {length === 0 ? <p className="pb-4 pl-6 text-quiet">{nothing}</p> : null}
      <Changes most={most} size={size} />
    </Accordion>
  );
};
