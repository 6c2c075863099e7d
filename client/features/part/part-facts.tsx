import { scoreLink, songLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Song } from "#shared/board/song.ts";
import { pointsOf } from "#shared/selectors/points.ts";
import type { OpenPart } from "./use-part.ts";

const factsOf = ({ key, tempo, countIn, tuning, capo }: Song): readonly string[] =>
  [
    key,
    tempo === null ? "" : `${tempo} bpm`,
    tuning,
    capo === 0 ? "" : `capo ${capo}`,
    countIn === "" ? "" : `count-in: ${countIn}`,
  ].filter((fact) => fact !== "");

/** What a player must know before the first bar, and the ways to the song and to its score. */
export const PartFacts = ({ view, part }: OpenPart) => {
  const href = useHref();
  const { song } = view.file;
  const facts = factsOf(song);
  return (
    <div className="border-b border-line pb-3">
      <p>
        {facts.length === 0 ? (
          <span className="text-quiet">Key, tempo and count-in are not settled.</span>
        ) : (
          facts.join(" · ")
        )}
      </p>
      <p className="caption flex flex-wrap items-center gap-x-6">
        {part.casting.plays && !part.casting.needed ? <span>nice to have</span> : null}
        <TextLink standing href={href(songLink(song.id))}>
          The whole song
        </TextLink>
        <TextLink standing href={href(scoreLink(song.id))}>
          {pointsOf(view.today.score)} today, {pointsOf(view.night.score)} on the night
        </TextLink>
      </p>
    </div>
  );
};
