import { partLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { TextLink } from "#client/ui/text-link.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { lostPlaces } from "#shared/selectors/lost-places.ts";

/** Details whose place is gone, each with the way to where it is said anew. */
export const LostList = ({ file }: { readonly file: SongFile }) => {
  const href = useHref();
  const lost = lostPlaces(file);
  if (lost.length === 0) return null;
  return (
    <section aria-label="Details without their place" className="border-l-2 border-accent py-2 pl-3">
      <p className="font-semibold">
        {lost.length === 1 ? "One detail has" : `${lost.length} details have`} lost the place in the form. Say
        anew where it is.
      </p>
      <ul>
        {lost.map(({ card, sentence }) => (
          <li key={card.id}>
            <p>
              {card.chairs[0] === undefined ? (
                card.text
              ) : (
                <TextLink href={href(partLink(card.song, card.chairs[0], card.id))}>{card.text}</TextLink>
              )}
              <span className="caption block">{sentence}</span>
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
};
