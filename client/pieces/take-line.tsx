import { type ReactNode, useMemo } from "react";
import { useBand, useChairs, useGigs, useViewpoint } from "#client/store/hooks.ts";
import { classNames } from "#client/ui/class-names.ts";
import type { SongFile } from "#shared/board/board.ts";
import type { Take } from "#shared/board/take.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { capital, listed } from "#shared/readiness/names.ts";
import { readTake, type SlipReading } from "#shared/selectors/take-reading.ts";
import { useNames } from "./use-names.ts";

export interface TakeLineProps {
  readonly take: Take;
  readonly song: SongFile;
  /** Names the song, in lists over several songs. */
  readonly title?: ReactNode;
  /** At the end of the line: withdraw, open. */
  readonly trail?: ReactNode;
  /** Points it out, where the screen was opened at this take. */
  readonly pointedOut?: boolean;
}

const SEVERITY_WORDS = { 0.5: "small slip", 1: "slip", 2: "wreck" } as const;

const SlipLine = ({ slip }: { readonly slip: SlipReading }) => (
  <li>
    <span className={slip.severity === 2 ? "font-semibold text-slip" : "text-slip"}>
      {SEVERITY_WORDS[slip.severity]}:
    </span>{" "}
    {slip.about}
  </li>
);

/** One take of the log in words: day, kind, feel, tempo with its drift, who was away, what slipped. */
export const TakeLine = ({ take, song, title, trail, pointedOut = false }: TakeLineProps) => {
  const names = useNames();
  const chairs = useChairs();
  const gigs = useGigs();
  const { timeZone } = useBand();
  const [{ today }] = useViewpoint();
  const reading = useMemo(
    () => readTake(take, { file: song, chairs, gigs, names, timeZone }),
    [take, song, chairs, gigs, names, timeZone],
  );
  const facts = [
    reading.scope,
    reading.key,
    reading.tempo,
    reading.away.length > 0 ? `without ${listed(reading.away)}` : "",
    reading.floor,
  ].filter((fact) => fact !== "");
  return (
    <div
      data-pointed-out={pointedOut || undefined}
      className={classNames(
        "flex items-start gap-2 border-b border-line py-2",
        pointedOut && "border-l-4 border-l-accent pl-3",
      )}
    >
      <div className="min-w-0 flex-1">
        {title ? <div className="caption">{title}</div> : null}
        <p>
          <span className="text-quiet">{dayWords(reading.day, { weekday: true, today })}</span>{" "}
          {capital(reading.kind)}:{" "}
          <span className={reading.feel === "stopped" ? "font-semibold text-slip" : "font-semibold"}>
            {reading.feel}
          </span>
        </p>
        {facts.length === 0 ? null : <p className="caption">{facts.join(" · ")}</p>}
        {reading.slips.length === 0 ? null : (
          <ul className="mt-0.5 text-small">
            {reading.slips.map((slip) => (
              <SlipLine key={slip.about} slip={slip} />
            ))}
          </ul>
        )}
      </div>
      {trail}
    </div>
  );
};
