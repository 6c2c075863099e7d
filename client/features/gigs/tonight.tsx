import { songLink } from "#client/pieces/links.ts";
import { Remedies } from "#client/pieces/tonight/remedies.tsx";
import { TopField, useTop } from "#client/pieces/tonight/top-field.tsx";
import { useHref } from "#client/pieces/use-href.ts";
import { useWholeBoard } from "#client/store/hooks.ts";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Gig } from "#shared/board/band.ts";
import { songsOverTop, strainSentences } from "#shared/selectors/tonight-top.ts";
import { PLAIN_KEY } from "#shared/selectors/voice-draft.ts";

export interface TonightProps {
  readonly gig: Gig;
  /** The singer, whose device this is. */
  readonly member: string;
}

/** A tired voice, song by song: what lies too high tonight, what helps, who pays for it. For the singer alone. */
export const Tonight = ({ gig, member }: TonightProps) => {
  const board = useWholeBoard();
  const href = useHref();
  const [top, setTop] = useTop(member);
  const over = top === null ? [] : songsOverTop(board, gig, member, top);
  return (
    <div className="py-3">
      <TopField member={member} top={top} spelling={PLAIN_KEY} onTop={setTop} />
      <div aria-live="polite">
        {top === null ? null : (
          <p className="mt-2">
            {over.length === 0
              ? "None of your songs lies above it, as far as their melodies are written down."
              : over.length === 1
                ? "One of your songs lies above it."
                : `${over.length} of your songs lie above it.`}
          </p>
        )}
        {strainSentences(gig, over).map((sentence) => (
          <p key={sentence} className="text-accent">
            {sentence}
          </p>
        ))}
      </div>
      <ul>
        {over.map(({ song, title, sentence, remedies }) => (
          <li key={song} className="border-b border-line py-3">
            <TextLink standing href={href(songLink(song))}>
              {title}
            </TextLink>
            <p>{sentence}</p>
            <Remedies song={song} title={title} remedies={remedies} gig={gig} />
          </li>
        ))}
      </ul>
    </div>
  );
};
