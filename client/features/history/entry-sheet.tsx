import RotateCcw from "lucide-react/icons/rotate-ccw";
import { useMemo } from "react";
import { momentLink } from "#client/pieces/links.ts";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useBand, useBoardStore, useViewpoint, useWholeBoard } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Sheet } from "#client/ui/sheet.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { COMMANDS } from "#shared/commands/registry.ts";
import { entryRestore } from "#shared/history/entry-restore.ts";
import type { History } from "#shared/history/history.ts";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { clockWords } from "#shared/lib/moment-words.ts";
import { capital } from "#shared/readiness/names.ts";
import type { HistoryLine } from "#shared/selectors/history/history-lines.ts";
import { restorePreview } from "#shared/selectors/history/restore-preview.ts";

export interface EntrySheetProps {
  readonly line: HistoryLine;
  /** The stretch of history it stands in. */
  readonly history: History;
  readonly document: string;
  /** False for a season that was closed: it can be read only. */
  readonly open: boolean;
  /** Where it came from. */
  readonly from: string;
  readonly onClose: () => void;
}

/** What putting the entry back would do now; follows the board while the sheet is open. */
const PutBack = ({ line, history, onClose }: Pick<EntrySheetProps, "line" | "history" | "onClose">) => {
  const store = useBoardStore();
  const board = useWholeBoard();
  const act = useAct();
  // biome-ignore lint/correctness/useExhaustiveDependencies: the stored values change with the board
  const restore = useMemo(
    () => entryRestore(line.entry, history, store.stored),
    [line, history, store, board],
  );
  if (restore === null)
    return (
      <p className="text-quiet">
        There is nothing to put back: the board reads now as it did before this, or this cannot be turned
        back.
      </p>
    );
  const command = COMMANDS.get(restore.name);
  const putBack = () => {
    if (command === undefined) return;
    if (act(command, restore.args, `Put back: ${line.what}`)) onClose();
  };
  return (
    <>
      <p>Putting it back now means:</p>
      <ul className="list-disc pl-5">
        {restorePreview(restore.writes).map(({ words }) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      <Button tone="main" icon={RotateCcw} className="self-start" onClick={putBack}>
        Put this back
      </Button>
    </>
  );
};

/** One entry of the history: who, when, from where, and the ways back from it. */
export const EntrySheet = ({ line, history, document, open, from, onClose }: EntrySheetProps) => {
  const href = useHref();
  const { timeZone } = useBand();
  const [{ today }] = useViewpoint();
  const { entry, who, what } = line;
  const when = `${dayWords(dayOf(entry.at, timeZone), { weekday: true, today })}, ${clockWords(entry.at, timeZone)}`;
  return (
    <Sheet open onClose={onClose} title={capital(what)} above={`${who} · ${when}`} subject={entry.id}>
      <div className="flex flex-col gap-3">
        {from === "" ? null : <p className="caption">{from}</p>}
        {open ? (
          <PutBack line={line} history={history} onClose={onClose} />
        ) : (
          <p className="text-quiet">This season is closed: it can be read, and nothing of it put back.</p>
        )}
        <div className="flex flex-col items-start border-t border-line pt-2">
          <TextLink standing href={href(momentLink(document, entry.firstSeq - 1))}>
            The board just before this
          </TextLink>
          <TextLink standing href={href(momentLink(document, entry.lastSeq))}>
            The board right after this
          </TextLink>
        </div>
      </div>
    </Sheet>
  );
};
