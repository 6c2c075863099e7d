import { SectionHeading } from "#client/ui/page-heading.tsx";
import type { GigSong } from "#shared/board/band.ts";
import { formatLength } from "#shared/music/duration.ts";
import type { SetSong } from "#shared/order/set-facts.ts";
import { type OrderBlock, songWords } from "#shared/selectors/order-words.ts";
import { OrderRow } from "./order-row.tsx";
import type { RowActions } from "./row-tools.tsx";
import type { Landing } from "./use-drag.ts";

/** What an order that can be changed shows besides its songs. */
export interface OrderTools {
  /** Null for who may only look. */
  readonly actions: RowActions | null;
  readonly pins: ReadonlyMap<string, GigSong["pin"]>;
  /** Songs that somebody asked for. */
  readonly requests: ReadonlyMap<string, string>;
  /** The song that is being dragged, and where it would land. */
  readonly dragged: string | null;
  readonly landing: Landing | null;
}

export interface OrderListProps {
  readonly blocks: readonly OrderBlock[];
  readonly songs: ReadonlyMap<string, SetSong>;
  readonly titleOf: (song: string) => string;
  /** Songs that stand in the way of the gig as they are. */
  readonly notReady: ReadonlySet<string>;
  readonly label: string;
  readonly tools?: OrderTools;
}

const factsOf = (song: SetSong | undefined): string => (song === undefined ? "" : songWords(song));

/** The blocks of a night: each song with the moment it starts, and what happens before it. */
export const OrderList = ({ blocks, songs, titleOf, notReady, label, tools }: OrderListProps) =>
  blocks.map((block, b) => (
    <section
      // biome-ignore lint/suspicious/noArrayIndexKey: a block is its place
      key={b}
      className="break-inside-avoid"
      aria-label={blocks.length === 1 ? label : `${label}, block ${b + 1}`}
    >
      <SectionHeading
        title={blocks.length === 1 ? label : `Block ${b + 1}`}
        aside={`${formatLength(block.seconds)} of ${block.minutes}:00`}
      />
      {block.warnings.length === 0 ? null : (
        <ul className="pb-2 text-accent">
          {block.warnings.map((warning) => (
            <li key={warning}>{warning}</li>
          ))}
        </ul>
      )}
      {block.rows.length === 0 ? <p className="py-2 text-quiet">Nothing in it yet.</p> : null}
      <ol>
        {block.rows.map(({ song, startsAt, join }, place) => (
          <OrderRow
            key={song}
            song={song}
            title={titleOf(song)}
            startsAt={startsAt}
            join={join.join("; ")}
            facts={factsOf(songs.get(song))}
            energy={songs.get(song)?.energy ?? 0}
            ready={!notReady.has(song)}
            pin={tools?.pins.get(song) ?? ""}
            requested={tools?.requests.has(song) ?? false}
            dragged={tools?.dragged === song}
            landing={tools?.landing?.block === b && tools.landing.at === place}
            actions={tools?.actions}
          />
        ))}
      </ol>
    </section>
  ));
