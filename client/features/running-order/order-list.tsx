import type { ReactNode } from "react";
import { songLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { classNames } from "#client/ui/class-names.ts";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { formatLength } from "#shared/music/duration.ts";
import type { SetSong } from "#shared/order/set-facts.ts";
import { type OrderBlock, songWords } from "#shared/selectors/order-words.ts";

export interface OrderListProps {
  readonly blocks: readonly OrderBlock[];
  readonly songs: ReadonlyMap<string, SetSong>;
  readonly titleOf: (song: string) => string;
  /** Songs that stand in the way of the gig as they are. */
  readonly notReady: ReadonlySet<string>;
  /** What stands at the end of a row. */
  readonly trail?: (song: string, block: number, place: number) => ReactNode;
  readonly label: string;
  /** What a row takes besides: how it is moved. */
  readonly rowProps?: (song: string) => object;
}

const words = (song: SetSong | undefined): string => (song === undefined ? "" : songWords(song));

/** How big a song feels, as the height of a bar. */
const Energy = ({ energy }: { readonly energy: number }) => (
  <svg aria-hidden="true" viewBox="0 0 8 32" className="h-8 w-2 shrink-0">
    <rect width="8" height="32" className="fill-line" />
    <rect
      width="8"
      y={32 - 32 * Math.max(0.06, energy)}
      height={32 * Math.max(0.06, energy)}
      className="fill-ink"
    />
  </svg>
);

/** The blocks of a night: each song with the moment it starts, and what happens before it. */
export const OrderList = ({ blocks, songs, titleOf, notReady, trail, label, rowProps }: OrderListProps) => {
  const href = useHref();
  return blocks.map((block, b) => (
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
          <li key={song} data-song={song} className="border-b border-line" {...rowProps?.(song)}>
            {join.length === 0 ? null : <p className="caption pt-1 pl-16">{join.join("; ")}</p>}
            <div className="flex items-center gap-3 py-1.5">
              <span className="w-12 shrink-0 text-right text-quiet tabular-nums">
                {formatLength(startsAt)}
              </span>
              <Energy energy={songs.get(song)?.energy ?? 0} />
              <div className="min-w-0 flex-1">
                <a
                  href={href(songLink(song))}
                  className={classNames(
                    "inline-flex min-h-11 items-center decoration-control underline-offset-4 hover:underline dense:min-h-6",
                    notReady.has(song) ? "" : "font-semibold",
                  )}
                >
                  {titleOf(song)}
                </a>
                <p className="caption">
                  {words(songs.get(song))}
                  {notReady.has(song) ? " · not ready" : ""}
                </p>
              </div>
              {trail?.(song, b, place)}
            </div>
          </li>
        ))}
      </ol>
    </section>
  ));
};
