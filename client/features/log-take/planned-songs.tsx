import { useState } from "react";
import { planLink, roomLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useRehearsal, useSongs, useViewpoint } from "#client/store/hooks.ts";
import { ListRow } from "#client/ui/list-row.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { capital } from "#shared/readiness/names.ts";
import { blockWords, minutesWord } from "#shared/selectors/plan-words.ts";
import { plannedSongs } from "#shared/selectors/planned-songs.ts";

export interface PlannedSongsProps {
  /** How often each song was played today. */
  readonly played: ReadonlyMap<string, number>;
}

/**
 * The plan in use, in playing order, each song with what it gets; without one, the leader's way to a plan. The plan is that
 * of when the list was opened: nothing moves under a thumb.
 */
export const PlannedSongs = ({ played }: PlannedSongsProps) => {
  const href = useHref();
  const songs = useSongs();
  const { role } = useAuthor();
  const [{ today }] = useViewpoint();
  const rehearsal = useRehearsal(today);
  const [plan] = useState(rehearsal?.plan ?? []);
  const planned = plannedSongs(songs, plan);
  if (planned.length === 0)
    return role !== "leader" ? null : (
      <p className="mt-2">
        <TextLink standing href={href(planLink(rehearsal?.day))}>
          Plan the room
        </TextLink>
      </p>
    );
  return (
    <section aria-labelledby="tonights-plan">
      <SectionHeading
        title={<span id="tonights-plan">Tonight's plan</span>}
        aside={
          <TextLink standing href={href(planLink(today))}>
            The whole plan
          </TextLink>
        }
      />
      <ol>
        {planned.map(({ key, file, block }) => (
          <ListRow
            key={key}
            size="room"
            href={href(roomLink(block.song))}
            note={[
              capital(blockWords(file, block)),
              minutesWord(block.minutes),
              ...(played.has(block.song) ? ["played today"] : []),
            ].join(" · ")}
          >
            {file.song.title}
          </ListRow>
        ))}
      </ol>
    </section>
  );
};
