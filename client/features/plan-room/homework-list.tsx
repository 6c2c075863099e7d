import { partLink, practiceLink, songLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useAuthor, useSongs } from "#client/store/hooks.ts";
import { ListRow } from "#client/ui/list-row.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import type { Homework } from "#shared/plan/evening-plan.ts";
import { cardName } from "#shared/readiness/names.ts";

/** What each player can do alone, so that the room is for shared work; one's own first. */
export const HomeworkList = ({ homework }: { readonly homework: readonly Homework[] }) => {
  const href = useHref();
  const names = useNames();
  const songs = useSongs();
  const { member } = useAuthor();
  if (homework.length === 0) return null;
  const ordered = [...homework].sort((a, b) => Number(b.member === member) - Number(a.member === member));
  return (
    <section aria-labelledby="homework">
      <SectionHeading title={<span id="homework">Homework</span>} />
      <p className="caption">What one player can learn alone is not for the room.</p>
      {ordered.map((one) => (
        <div key={one.member} className="break-inside-avoid">
          <h3 className="mt-4 font-semibold">
            {names.member(one.member)}
            {one.member === member ? " (you)" : ""}
          </h3>
          <ul>
            {one.items.flatMap(({ song, card }) => {
              const file = songs.get(song);
              const [chair] = card.chairs;
              if (file === undefined) return [];
              const link =
                one.member === member ? practiceLink(song, card.id)
                : chair === undefined ? songLink(song)
                : partLink(song, chair, card.id); // biome-ignore format: one decision
              return [
                <ListRow key={card.id} href={href(link)} note={file.song.title}>
                  {cardName(file, card)}
                </ListRow>,
              ];
            })}
          </ul>
        </div>
      ))}
    </section>
  );
};
