import Undo2 from "lucide-react/icons/undo-2";
import { useBand, useBoardStore, useOwnChanges } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { useToast } from "#client/ui/toast.tsx";

/** What this device changed since the page was opened, each with an undo. */
export const HistorySection = () => {
  const store = useBoardStore();
  const changes = useOwnChanges();
  const toast = useToast();
  const { timeZone } = useBand();
  const clock = new Intl.DateTimeFormat("en-GB", { timeZone, hour: "2-digit", minute: "2-digit" });
  return (
    <Accordion summary={`Your own changes on this visit: ${changes.length}`}>
      {changes.length === 0 ? (
        <p className="pb-4 pl-6 text-quiet">
          Nothing yet. What you change here can be taken back from this list.
        </p>
      ) : (
        <ul className="pb-4 pl-6">
          {changes.map((change) => (
            <ListRow
              key={change.id}
              note={clock.format(change.at)}
              trail={
                <Button
                  tone="quiet"
                  icon={Undo2}
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
        </ul>
      )}
    </Accordion>
  );
};
