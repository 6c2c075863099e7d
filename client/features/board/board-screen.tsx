import { useCallback, useEffect, useRef } from "react";
import { peopleLink, songsLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { useChairs, useViewpoint } from "#client/store/hooks.ts";
import { useStand } from "#client/store/presence-hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { LAPTOP, useMediaQuery } from "#client/ui/use-media-query.ts";
import { DEFAULT_CHOICES } from "#shared/selectors/board-choices.ts";
import { BoardGrid, type OpenPart } from "./board-grid.tsx";
import { BoardTools } from "./board-tools.tsx";
import { GigHead } from "./gig-head.tsx";
import { OrderLine } from "./order-line.tsx";
import { SongList } from "./song-list.tsx";
import { useChoices } from "./use-choices.ts";
import { useFrozenOrder } from "./use-frozen-order.ts";

export interface BoardScreenProps {
  /** Opens one part; it may be shown beside the board. */
  readonly onOpenPart: (song: string, chair: string) => void;
  /** Opens what is behind a song's score. */
  readonly onOpenScore: (song: string) => void;
  /** The part that is open beside the board; when it closes, the focus returns to its cell. */
  readonly openPart?: OpenPart | null;
}

const countSongs = ({ board }: BoardReading): number => board.songs.size;

/** The same function for good, whatever its caller renders. */
const useSteady = <A extends readonly unknown[]>(act: (...args: A) => void): ((...args: A) => void) => {
  const latest = useRef(act);
  useEffect(() => {
    latest.current = act;
  });
  return useCallback((...args: A) => latest.current(...args), []);
};

const EmptyBoard = ({ chairs }: { readonly chairs: number }) => {
  const href = useHref();
  return (
    <>
      <PageHeading title="Board" />
      {chairs === 0 ? (
        <EmptyState
          title="First, who plays what?"
          action={
            <TextLink standing href={href(peopleLink())}>
              Set up chairs and people
            </TextLink>
          }
        >
          Every instrument and voice of the band becomes a column here: a chair that somebody holds. Songs
          become the rows.
        </EmptyState>
      ) : (
        <EmptyState
          title="No songs yet"
          action={
            <TextLink standing href={href(songsLink())}>
              Add songs, or paste a list
            </TextLink>
          }
        >
          Each song becomes a row. Its cells show how every chair stands with its details, and the row says
          whether the song is ready for the night, and if not, why.
        </EmptyState>
      )}
    </>
  );
};

const Board = ({ onOpenPart, onOpenScore, openPart = null }: BoardScreenProps) => {
  const chairs = useChairs();
  const all = useBoardSlice(countSongs);
  const [{ gig }] = useViewpoint();
  const laptop = useMediaQuery(LAPTOP);
  const [choices, choose] = useChoices();
  const order = useFrozenOrder(choices);
  const opens = { onOpenPart: useSteady(onOpenPart), onOpenScore: useSteady(onOpenScore), openPart };
  return (
    <>
      <GigHead />
      <BoardTools choices={choices} onChoose={choose} hasGig={gig !== null} folded={!laptop} />
      <OrderLine order={order} of={all} />
      {order.songs.length === 0 ? (
        <EmptyState
          title="No song passes"
          action={
            <Button onClick={() => choose({ ...DEFAULT_CHOICES, sort: choices.sort })}>Show all songs</Button>
          }
        >
          The search and the filters together leave nothing. Take one of them away, or show every stage.
        </EmptyState>
      ) : laptop ? (
        <BoardGrid songs={order.songs} chairs={chairs} {...opens} />
      ) : (
        <SongList songs={order.songs} chairs={chairs} {...opens} />
      )}
    </>
  );
};

/**
 * The leader's main screen: the gig ahead and how much of it stands, then songs × chairs, worst first. A grid on
 * a laptop, a list of songs on a phone.
 */
export const BoardScreen = (props: BoardScreenProps) => {
  const chairs = useChairs();
  const songs = useBoardSlice(countSongs);
  useStand("board");
  return chairs.length === 0 || songs === 0 ? <EmptyBoard chairs={chairs.length} /> : <Board {...props} />;
};
