import { useCallback, useMemo, useRef } from "react";
import { NewsBar } from "#client/pieces/detail/news-bar.tsx";
import { useMySong } from "#client/pieces/my-source.ts";
import { useHeldList } from "#client/pieces/use-held-list.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useAuthor } from "#client/store/hooks.ts";
import type { SongFile } from "#shared/board/board.ts";
import type { MyPart } from "#shared/selectors/my-parts.ts";
import type { DetailLine } from "#shared/selectors/part-view.ts";
import { severityOf, withSlip } from "#shared/selectors/slip-choices.ts";
import { RoomActions, RoomDetail } from "./room-detail.tsx";
import type { OpenTake } from "./use-take.ts";

export interface MyDetailsProps {
  readonly file: SongFile;
  readonly member: string;
  readonly take: OpenTake;
}

const NONE: readonly MyPart[] = [];
const idOf = ({ card }: DetailLine): string => card.id;

/** Where a slip on a detail lies: on the one chair that plays it, else on the detail itself. */
const spotOf = ({ card, standings }: DetailLine) => ({
  card: card.id,
  chair: standings.length === 1 ? (standings[0]?.chair ?? null) : null,
});

/** The player's own details of a song in playing order, then their parts as such. Holds still while the song is open. */
export const MyDetails = ({ file, member, take }: MyDetailsProps) => {
  const names = useNames();
  const { role } = useAuthor();
  const open = useMySong(file.song.id, member);
  const parts = open?.parts ?? NONE;
  const lines = useMemo(() => {
    const place = new Map(file.cards.map(({ id }, i) => [id, i]));
    return parts
      .flatMap(({ details }) => details)
      .sort((a, b) => (place.get(a.card.id) ?? 0) - (place.get(b.card.id) ?? 0));
  }, [parts, file.cards]);
  const list = useHeldList(lines, idOf);
  const latest = useRef(take);
  latest.current = take;
  const slip = useCallback((spot: { readonly chair: string | null; readonly card: string | null }) => {
    const { draft, change } = latest.current;
    change({ slips: withSlip(draft.slips, spot, severityOf(draft.slips, spot) === 0 ? 1 : 0) });
  }, []);
  const onSlip = useCallback((line: DetailLine) => slip(spotOf(line)), [slip]);
  const mayLog = role !== "guest";
  if (open === null) return <p className="py-3 text-quiet">You have nothing to play in this song.</p>;
  return (
    <section aria-label="My details">
      <ol>
        {list.shown.map(({ item, gone }) => (
          <li key={item.card.id}>
            {gone ? (
              <p className="expression border-b border-line py-4 text-quiet">
                Taken off the board: {item.card.text}
              </p>
            ) : (
              <RoomDetail
                line={item}
                song={file}
                chair={parts.length > 1 ? names.chair(item.standings[0]?.chair ?? "") : undefined}
                slipped={severityOf(take.draft.slips, spotOf(item)) !== 0}
                onSlip={mayLog ? onSlip : undefined}
              />
            )}
          </li>
        ))}
        {parts.map(({ view: { chair, itself } }) =>
          itself === null ? null : (
            <li key={chair.id} data-card={itself.statusId} className="border-b border-line py-2">
              <p>
                The part itself <span className="text-quiet">{parts.length > 1 ? chair.name : ""}</span>
              </p>
              <RoomActions
                standing={itself}
                card={null}
                song={file}
                about={`the part itself, ${chair.name}`}
                slipped={severityOf(take.draft.slips, { chair: chair.id, card: null }) !== 0}
                onSlip={mayLog ? () => slip({ chair: chair.id, card: null }) : undefined}
              />
            </li>
          ),
        )}
      </ol>
      {/* Keeps its place, so that news moves nothing. */}
      <div className="min-h-[4.25rem]">
        <NewsBar list={list} />
      </div>
    </section>
  );
};
