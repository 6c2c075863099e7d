import Plus from "lucide-react/icons/plus";
import { useState } from "react";
import { orderLink } from "#client/pieces/links.ts";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useSteps } from "#client/pieces/use-steps.ts";
import { useAuthor, useBand, useSongs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { LAPTOP, useMediaQuery } from "#client/ui/use-media-query.ts";
import { VisuallyHidden } from "#client/ui/visually-hidden.tsx";
import type { GigSong } from "#shared/board/band.ts";
import { dropSong, moveInGig } from "#shared/commands/call-song.ts";
import { addedSentence, lengthSentence, unknownSentence } from "#shared/selectors/minute-words.ts";
import { CallSongsSheet } from "./call-songs-sheet.tsx";
import { GigSongRow } from "./gig-song-row.tsx";
import { TuneDialog } from "./tune-dialog.tsx";
import type { GigReading } from "./use-gig.ts";

/** The songs called for a gig, in playing order. Songs that were taken off the board are left out. */
export const GigOrder = ({ reading, ahead }: { readonly reading: GigReading; readonly ahead: boolean }) => {
  const { gig, outlook } = reading;
  const act = useAct();
  const href = useHref();
  const songs = useSongs();
  const looking = useAuthor().role === "guest";
  const laptop = useMediaQuery(LAPTOP);
  const [toArrange, setToArrange] = useState(false);
  // A phone has no room for the controls beside the words.
  const arranging = !looking && (laptop || toArrange);
  const [calling, setCalling] = useState(false);
  const [tuning, setTuning] = useState<GigSong | null>(null);
  const entryOf = new Map(gig.songs.map((entry) => [entry.song, entry]));
  const rows = outlook.songs.flatMap((song) => {
    const entry = entryOf.get(song.song);
    return entry === undefined ? [] : [{ entry, song }];
  });
  const steps = useSteps({
    items: rows.map(({ song }) => ({ id: song.song, name: song.title })),
    onMove: (song, index, name) => {
      // Removed songs keep their place among the called ones, so the step goes next to the neighbour's.
      const others = gig.songs.map((entry) => entry.song).filter((id) => id !== song);
      const shown = rows.map(({ entry }) => entry.song).filter((id) => id !== song);
      const before = shown[index];
      const place = before === undefined ? others.length : others.indexOf(before);
      return act(moveInGig, { gig: gig.id, song, index: place }, `Moved: ${name}`, { quiet: true });
    },
  });
  const tuned = tuning === null ? undefined : songs.get(tuning.song)?.song;
  const { tuning: usual } = useBand();
  const sentences = [
    lengthSentence(outlook),
    addedSentence(gig, songs, usual, outlook.minutes.planned),
    unknownSentence(outlook),
  ].filter((sentence) => sentence !== "");
  return (
    <section aria-labelledby="order">
      <SectionHeading title={<span id="order">Running order</span>} aside={rows.length} />
      {rows.length === 0 ? (
        <p className="pb-3 text-quiet">No song is called yet. Call the ones you mean to play.</p>
      ) : (
        <p className="pb-2">{sentences.join(" ")}</p>
      )}
      <ol
        ref={(element) => {
          steps.list.current = element;
        }}
      >
        {rows.map(({ entry, song }, place) => (
          <GigSongRow
            key={song.song}
            entry={entry}
            reading={song}
            place={place}
            count={rows.length}
            ahead={ahead}
            arranging={arranging}
            onMove={(by) => steps.move(song.song, by)}
            onKeyDown={steps.onKeyDown(song.song)}
            onTune={() => setTuning(entry)}
            onDrop={() => act(dropSong, { gig: gig.id, song: song.song }, `Dropped: ${song.title}`)}
          />
        ))}
      </ol>
      <VisuallyHidden>
        <span role="status">{steps.said}</span>
      </VisuallyHidden>
      {looking ? null : (
        <div className="mt-4 flex flex-wrap gap-3">
          <Button icon={Plus} tone={rows.length === 0 ? "main" : "plain"} onClick={() => setCalling(true)}>
            Call songs
          </Button>
          <TextLink standing href={href(orderLink(gig.id))}>
            Order, blocks, pins
          </TextLink>
          {laptop || rows.length === 0 ? null : (
            <Button aria-pressed={arranging} onClick={() => setToArrange(!arranging)}>
              {arranging ? "Done arranging" : "Arrange, tune, drop"}
            </Button>
          )}
        </div>
      )}
      {calling ? <CallSongsSheet gig={gig} onClose={() => setCalling(false)} /> : null}
      {tuning !== null && tuned !== undefined ? (
        <TuneDialog gig={gig.id} entry={tuning} song={tuned} onClose={() => setTuning(null)} />
      ) : null}
    </section>
  );
};
