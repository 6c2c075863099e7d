import { useCallback, useState } from "react";
import { dayText } from "#client/pieces/day-text.ts";
import { gigsLink, songsLink } from "#client/pieces/links.ts";
import { OwnChanges } from "#client/pieces/own-changes.tsx";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useSongs, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { listed } from "#shared/readiness/names.ts";
import { maySeeMember } from "#shared/selectors/member-state.ts";
import type { MySongs } from "#shared/selectors/my-parts.ts";
import { MySong } from "./my-song.tsx";
import { useMySongs } from "./use-my-songs.ts";
import { type News, useNews } from "./use-news.ts";
import { useOpenSong } from "./use-open-song.ts";
import { WorthDoing } from "./worth-doing.tsx";

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
  const rows = (songs: readonly string[]) => (
    <ol>
      {songs.map((song) => (
        <MySong
          key={song}
          song={song}
          member={member}
          open={open === song}
          onToggle={onToggle}
          news={news.of(song)}
          isNew={news.isNew}
          memory={memory}
          showScore={maySeeMember(author, member)}
        />
      ))}
    </ol>
  );
  if (held.called.length + held.others.length === 0) return <NothingToPlay />;
  return (
    <>
      <NewsLine songs={live} news={news} onOpen={(song) => onToggle(song, true)} />
      <WorthDoing
        key={gig?.id ?? ""}
        songs={held.called.length > 0 ? held.called : held.others}
        member={member}
        onOpen={(song, card) => {
          goTo(song, card);
          look(song);
        }}
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

/** How many details came since, and the way to the first of them. */
const NewsLine = (props: {
  readonly songs: MySongs;
  readonly news: News;
  readonly onOpen: (song: string) => void;
}) => {
  const order = [...props.songs.called, ...props.songs.others];
  const fresh = order.filter((song) => props.news.of(song) > 0);
  const count = fresh.reduce((sum, song) => sum + props.news.of(song), 0);
  const [first] = fresh;
  return (
    <div aria-live="polite" className="no-print">
      {first === undefined ? null : (
        <Button className="mb-2 w-full" onClick={() => props.onOpen(first)}>
          {count === 1 ? "1 new detail" : `${count} new details`} since you looked
          {fresh.length > 1 ? `, in ${fresh.length} songs` : ""}
        </Button>
      )}
    </div>
  );
};

const Tacet = ({ songs }: { readonly songs: readonly string[] }) => {
  const all = useSongs();
  const titles = songs.flatMap((song) => all.get(song)?.song.title ?? []);
  if (titles.length === 0) return null;
  return (
    <p className="py-3 text-quiet">
      <span className="expression">tacet</span> in {listed(titles)}
    </p>
  );
};

const NothingToPlay = () => {
  const href = useHref();
  const none = useSongs().size === 0;
  return (
    <EmptyState
      title="Nothing to play yet"
      action={
        <TextLink standing href={href(none ? songsLink() : gigsLink())}>
          {none ? "Add songs" : "Look at the gigs"}
        </TextLink>
      }
    >
      {none
        ? "The band has no songs on its board. The first ones make this page."
        : "No song that the band keeps up has something to play for this chair."}
    </EmptyState>
  );
};
