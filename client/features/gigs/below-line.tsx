import { namedLink, scoreLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { belowTheLine, type OutlookSong } from "#shared/selectors/gig-outlook.ts";

/** The called songs that are not ready, worst first: what stands in the way of each opens in one tap, and so does its score. */
export const BelowLine = ({ songs }: { readonly songs: readonly OutlookSong[] }) => {
  const href = useHref();
  const below = belowTheLine(songs);
  if (below.length === 0) return null;
  return (
    <section aria-labelledby="below-line">
      <SectionHeading
        title={<span id="below-line">Below the line</span>}
        aside={`${below.length} of ${songs.length}`}
      />
      <ul>
        {below.map(({ song, title, points, reason }) => (
          <li key={song} className="flex items-center gap-x-4 border-b border-line py-1">
            <p className="min-w-0 flex-1">
              <span className="font-semibold">{title}</span>
              {reason === null ? null : (
                <TextLink standing className="w-full items-start" href={href(namedLink(reason.names))}>
                  {reason.sentence}
                </TextLink>
              )}
            </p>
            <TextLink standing href={href(scoreLink(song))}>
              {points} %<span className="sr-only"> on the night: {title}</span>
            </TextLink>
          </li>
        ))}
      </ul>
    </section>
  );
};
