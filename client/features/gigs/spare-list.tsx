import { songLink } from "#client/pieces/links.ts";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Gig } from "#shared/board/band.ts";
import { arrangeGig } from "#shared/commands/arrange-gig.ts";
import { listed } from "#shared/readiness/names.ts";
import { orderOf } from "#shared/selectors/running-order.ts";
import { staleSongs, swapsOf } from "#shared/selectors/swap-list.ts";
import { suppose } from "#shared/selectors/what-if.ts";
import { useSwapSongs } from "./use-swap-songs.ts";

/** Seconds a song is taken to last while nobody has said. */
const USUAL_SECONDS = 210;

/** For each song what could stand in for it, and what was not played for too long. */
export const SpareList = ({ gig }: { readonly gig: Gig }) => {
  const act = useAct();
  const href = useHref();
  const canChange = useAuthor().role !== "guest";
  const { played, spares, night, togetherDays } = useSwapSongs(gig);
  const titles = new Map([...played, ...spares].map(({ song }) => [song.id, song.title]));
  const titleOf = (song: string): string => titles.get(song) ?? "";
  const swap = (out: string, into: string): void => {
    const order = orderOf(suppose(gig, [{ of: "swap", out, in: into }]));
    act(
      arrangeGig,
      { gig: gig.id, blocks: order.map((block) => [...block]) },
      `${titleOf(into)} for ${titleOf(out)}`,
    );
  };
  const stale = staleSongs(played, night, togetherDays, USUAL_SECONDS);
  return (
    <div className="py-3">
      <ul>
        {swapsOf(played, spares).map(({ song, spare, differs }) => (
          <li key={song} className="flex flex-wrap items-center gap-x-3 border-b border-line py-1">
            <p className="min-w-0 flex-1">
              {titleOf(song)}:{" "}
              {spare === null ? (
                <span className="text-quiet">nothing ready to stand in</span>
              ) : (
                <>
                  <TextLink href={href(songLink(spare))}>{titleOf(spare)}</TextLink>
                  <span className="caption">
                    {differs.length === 0 ? " fits in all" : ` ${listed(differs)}`}
                  </span>
                </>
              )}
            </p>
            {spare !== null && canChange ? (
              <Button tone="quiet" onClick={() => swap(song, spare)}>
                Swap
                <span className="sr-only">
                  {" "}
                  {titleOf(song)} for {titleOf(spare)}
                </span>
              </Button>
            ) : null}
          </li>
        ))}
      </ul>
      {stale.length === 0 ? null : (
        <>
          <p className="pt-4 font-semibold">Gone stale by that night</p>
          <ul>
            {stale.map(({ song, days, minutes }) => (
              <li key={song} className="border-b border-line py-2">
                <p>
                  <TextLink href={href(songLink(song))}>{titleOf(song)}</TextLink>
                  <span className="text-quiet">
                    {days === null ? ": never played whole" : `: ${days} days since the last whole take`}; one
                    run takes {minutes} minutes
                  </span>
                </p>
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
};
