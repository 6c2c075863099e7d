import { useState } from "react";
import { useSongs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { listed } from "#shared/readiness/names.ts";
import type { MySongs } from "#shared/selectors/my-parts.ts";
import type { News } from "./use-news.ts";

/**
 * How many details came since, and the way to the first of them. Only what was news when the screen was opened:
 * what comes later is told on its song's line, where it moves nothing.
 */
export const NewsLine = (props: {
  readonly songs: MySongs;
  readonly news: News;
  readonly onOpen: (song: string, card: string) => void;
}) => {
  const { songs, news, onOpen } = props;
  const fresh = [...songs.called, ...songs.others].filter((song) => news.of(song).length > 0);
  const [told] = useState(fresh.length > 0);
  const [first = ""] = fresh;
  const [card = ""] = news.of(first);
  const count = fresh.reduce((sum, song) => sum + news.of(song).length, 0);
  if (!told || count === 0) return null;
  return (
    <Button className="mb-2 w-full no-print" onClick={() => onOpen(first, card)}>
      {count === 1 ? "1 new detail" : `${count} new details`} since you looked
      {fresh.length > 1 ? `, in ${fresh.length} songs` : ""}
    </Button>
  );
};

/** The gig's songs in which the member rests. */
export const Tacet = ({ songs }: { readonly songs: readonly string[] }) => {
  const all = useSongs();
  const titles = songs.flatMap((song) => all.get(song)?.song.title ?? []);
  if (titles.length === 0) return null;
  return (
    <p className="py-3 text-quiet">
      <span className="expression">tacet</span> in {listed(titles)}
    </p>
  );
};
