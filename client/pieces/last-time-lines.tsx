import { useMemo } from "react";
import { useBand, useChairs, useGigs, useViewpoint } from "#client/store/hooks.ts";
import type { SongFile } from "#shared/board/board.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { lastTime } from "#shared/selectors/last-time.ts";
import { useNames } from "./use-names.ts";

export interface LastTimeLinesProps {
  readonly song: SongFile;
  /** One's own chairs: their slips come first. */
  readonly chairs: readonly string[];
}

const MOST = 3;

/** What slipped the last time the song was played: the thing to know before the count-in. */
export const LastTimeLines = ({ song, chairs: mine }: LastTimeLinesProps) => {
  const names = useNames();
  const chairs = useChairs();
  const gigs = useGigs();
  const { timeZone } = useBand();
  const [{ today }] = useViewpoint();
  const last = useMemo(
    () => lastTime({ file: song, chairs, gigs, names, timeZone }, new Set(mine), MOST),
    [song, chairs, gigs, names, timeZone, mine],
  );
  if (last === null) return <p className="py-2 text-quiet">Never played together yet.</p>;
  const { reading, slips, more } = last;
  return (
    <div className="py-2">
      <p>
        <span className="text-quiet">Last time, {dayWords(reading.day, { weekday: true, today })}:</span>{" "}
        <span className={reading.feel === "stopped" ? "font-semibold text-slip" : "font-semibold"}>
          {reading.feel}
        </span>
        {slips.length > 0 ? <span className="text-quiet">. It slipped on</span> : null}
      </p>
      {slips.length === 0 ? null : (
        <ul className="border-l-2 border-slip pl-3">
          {slips.map(({ about, severity }) => (
            <li key={about} className={severity === 2 ? "font-semibold" : undefined}>
              {about}
            </li>
          ))}
          {more > 0 ? <li className="text-quiet">and {more} more</li> : null}
        </ul>
      )}
    </div>
  );
};
