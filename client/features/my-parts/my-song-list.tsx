import { useCallback, useState } from "react";
import { dayText } from "#client/pieces/day-text.ts";
import { useAuthor, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { later } from "#client/ui/later.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { maySeeMember } from "#shared/selectors/member-state.ts";
import { NewsLine, Tacet } from "./list-lines.tsx";
import { MySong } from "./my-song.tsx";
import { NothingToPlay } from "./nothing-to-play.tsx";
import { useMySongs } from "./use-my-songs.ts";
import { useNews } from "./use-news.ts";
import { useOpenSong } from "./use-open-song.ts";
import { WorthDoing } from "./worth-doing.tsx";

/** Nobody has changed anything yet when the list is first seen. */
const OwnChanges = later(async () => (await import("#client/pieces/own-changes.tsx")).OwnChanges, "");

/** A member's songs, the gig's first. Keyed by member: each has a visit of their own. */
export const MySongList = ({ member }: { readonly member: string }) => {
  const { held, live, stale, refresh } = useMySongs(member);
  const news = useNews(live, member);
  const { open, toggle, goTo } = useOpenSong(member);
  const [memory] = useState(() => new Map<string, ReadonlySet<string>>());
  const author = useAuthor();
  const [{ gig, today }] = useViewpoint();
  const { look } = news;
  const onToggle = useCallback(
    (song: string, now: boolean) => {
      toggle(song, now);
      if (now) look(song);
    },
    [toggle, look],
  );
  const show = (song: string, card: string) => {
    goTo(song, card);
    look(song);
  };
  const rows = (songs: readonly string[]) => (
    <ol>
      {songs.map((song) => (
        <MySong
          key={song}
          song={song}
          member={member}
          open={open === song}
          onToggle={onToggle}
          news={news.of(song).length}
          isNew={news.isNew}
          memory={memory}
          showScore={maySeeMember(author, member)}
        />
      ))}
    </ol>
  );
  if (held.called.length + held.others.length === 0) return <NothingToPlay member={member} />;
  return (
    <>
      <NewsLine songs={live} news={news} onOpen={show} />
      <WorthDoing
        key={gig?.id ?? ""}
        songs={held.called.length > 0 ? held.called : held.others}
        member={member}
        onOpen={show}
      />
      {gig === null || held.called.length === 0 ? null : (
        <SectionHeading title={gig.name || gig.place} aside={dayText(gig.date, today)} />
      )}
      {rows(held.called)}
      <Tacet songs={held.tacet} />
      {held.others.length === 0 ? null : (
        <SectionHeading title={held.called.length > 0 ? "Other songs" : "Songs"} />
      )}
      {rows(held.others)}
      {stale ? (
        <Button className="mt-3 w-full" onClick={refresh}>
          The list of songs has changed: show it
        </Button>
      ) : null}
      <OwnChanges />
    </>
  );
};
