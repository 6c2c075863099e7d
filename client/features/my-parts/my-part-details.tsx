import { useEffect, useState } from "react";
import { NewsBar } from "#client/pieces/detail/news-bar.tsx";
import { DetailLine } from "#client/pieces/detail-line.tsx";
import { type Held, useHeldList } from "#client/pieces/use-held-list.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { isOpen, type MyPart } from "#shared/selectors/my-parts.ts";
import type { DetailLine as DetailReading } from "#shared/selectors/part-view.ts";

export interface MyPartDetailsProps {
  readonly song: SongFile;
  readonly part: MyPart;
  readonly isNew: (card: string) => boolean;
  /** Keeps for the whole visit which details were folded away, song by song. */
  readonly memory: Map<string, ReadonlySet<string>>;
}

const idOf = ({ card }: DetailReading): string => card.id;
const lockedIn = (part: MyPart): ReadonlySet<string> =>
  new Set(part.details.filter((line) => !isOpen(line)).map(idOf));

/**
 * Open details in playing order, those locked in folded below. Which is which is settled when the song is first
 * opened in a visit: a ticked row stays where the thumb left it.
 */
export const MyPartDetails = ({ song, part, isNew, memory }: MyPartDetailsProps) => {
  const list = useHeldList(part.details, idOf);
  const place = `${song.song.id}/${part.view.chair.id}`;
  const [folded, setFolded] = useState(() => memory.get(place) ?? lockedIn(part));
  useEffect(() => {
    memory.set(place, folded);
  }, [memory, place, folded]);
  const refresh = () => {
    list.refresh();
    setFolded(lockedIn(part));
  };
  const inSight = list.shown.filter(({ item }) => !folded.has(idOf(item)));
  const away = list.shown.filter(({ item }) => folded.has(idOf(item)));
  const reopened = away.some(({ item, gone }) => !gone && isOpen(item));
  const rows = (held: readonly Held<DetailReading>[]) => (
    <ol>
      {held.map(({ item, gone }) => (
        <li key={item.card.id} data-card={item.card.id}>
          {gone ? (
            <p className="expression border-b border-line py-4 text-quiet">
              Taken off the board: {item.card.text}
            </p>
          ) : (
            <DetailLine
              line={item}
              song={song}
              size="room"
              title={isNew(item.card.id) ? <span className="font-semibold text-accent">new</span> : null}
            />
          )}
        </li>
      ))}
    </ol>
  );
  return (
    <>
      {inSight.length > 0 ? rows(inSight) : <NothingOpen part={part} />}
      <NewsBar list={{ ...list, stale: list.stale || reopened, refresh }} />
      {away.length === 0 ? null : (
        <Accordion size="room" summary={`Locked in (${away.length})`}>
          {rows(away)}
        </Accordion>
      )}
    </>
  );
};

const NothingOpen = ({ part }: { readonly part: MyPart }) =>
  part.details.length === 0 ? (
    <p className="py-3 text-quiet">
      {part.view.state === "nothing special"
        ? "Nothing special to note, says its player."
        : "No details yet. What would go wrong without a word about it? Entries, stops and the ending are a good start."}
    </p>
  ) : (
    <p className="py-3">Nothing open. Play it together: a clean run shows what the ticks only say.</p>
  );
