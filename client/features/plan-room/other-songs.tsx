import { useSongs } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { gigFirst } from "#shared/selectors/song-order.ts";
import { PinButtons } from "./pin-buttons.tsx";
import type { Evening } from "./use-evening.ts";

/** Every song that is not in the plan, the gig's first: where one is asked for after all. */
export const OtherSongs = ({
  evening,
  planned,
}: {
  readonly evening: Evening;
  readonly planned: readonly string[];
}) => {
  const songs = useSongs();
  const { called, others } = gigFirst(songs, evening.gig);
  const left = [...called, ...others].filter(({ song }) => !planned.includes(song.id));
  const { day, pins } = evening.evening;
  if (left.length === 0) return null;
  return (
    <Accordion
      className="no-print mt-6"
      summary={
        <>
          Not in this plan{" "}
          <span className="text-quiet">{left.length === 1 ? "1 song" : `${left.length} songs`}</span>
        </>
      }
    >
      <ul>
        {left.map(({ song }) => (
          <li
            key={song.id}
            className="flex flex-wrap items-center justify-between gap-x-4 border-b border-line py-1"
          >
            <span className="min-w-0">{song.title}</span>
            <PinButtons day={day} song={song} pin={pins.get(song.id)} />
          </li>
        ))}
      </ul>
    </Accordion>
  );
};
