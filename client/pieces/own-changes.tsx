import { useBand, useBoardStore, useOwnChanges } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { useToast } from "#client/ui/toast.tsx";

/** Changes in sight; older ones are beyond what a thumb undoes. */
const SHOWN = 12;

/** What was done on this device in this visit, latest first, each with its undo: for when the toast is gone. */
export const OwnChanges = () => {
  const store = useBoardStore();
  const toast = useToast();
  const changes = useOwnChanges();
  const { timeZone } = useBand();
  const clock = new Intl.DateTimeFormat(undefined, { hour: "2-digit", minute: "2-digit", timeZone });
  if (changes.length === 0) return null;
  return (
    <Accordion
      size="room"
      className="no-print"
      summary={`Done on this phone just now (${Math.min(changes.length, SHOWN)})`}
    >
      <ol>
        {changes.slice(0, SHOWN).map((change) => (
          <li key={change.id} className="flex items-center gap-3 border-b border-line py-1">
            <span className="min-w-0 flex-1">
              <span className="text-quiet">{clock.format(change.at)}</span> {change.label}
            </span>
            <Button
              tone="quiet"
              aria-label={`Undo: ${change.label}`}
              onClick={() => {
                const undone = store.undo(change);
                toast({ text: undone.ok ? undone.value.label : undone.error.sentence });
              }}
            >
              Undo
            </Button>
          </li>
        ))}
      </ol>
    </Accordion>
  );
};
