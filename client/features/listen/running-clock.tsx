import { useEffect, useState } from "react";
import { Button } from "#client/ui/button.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { clockOf, clockWords, hereWords } from "#shared/selectors/spotting.ts";
import type { OpenListening } from "./use-listening.ts";

/** How often (ms) the clock is drawn: its tenths must not look stuck, and a phone must not get warm. */
const DRAWN_EVERY = 100;

export interface RunningClockProps {
  readonly file: SongFile;
  readonly listening: OpenListening;
}

const leadWords = (lead: number): string =>
  lead > 0 ? `at ${clockWords(lead)}` : `${(-lead).toFixed(1)} s before the clock`;

/** The record's clock and the place it has reached. It is started with the record on the member's own player. */
export const RunningClock = ({ file, listening }: RunningClockProps) => {
  const { startedAt, now, start, stop, lead, setLead } = listening;
  const running = startedAt !== null;
  const beat = clockOf(file)[0]?.beatSeconds ?? null;
  const [, draw] = useState(0);
  useEffect(() => {
    if (!running) return;
    const timer = window.setInterval(() => draw((n) => n + 1), DRAWN_EVERY);
    return () => window.clearInterval(timer);
  }, [running]);
  return (
    <section aria-label="The record">
      <div className="flex flex-wrap items-baseline justify-between gap-x-6 border-b border-control pb-2">
        {/* The timer role is not announced by itself: nobody wants tenths read out. */}
        <p role="timer" className="text-display tabular-nums">
          {clockWords(now())}
        </p>
        <p className="text-room">{running ? hereWords(file, now(), lead) : "Not running"}</p>
      </div>
      <div className="mt-3 flex flex-wrap items-center gap-2">
        {running ? (
          <>
            <Button size="room" onClick={stop}>
              Stop
            </Button>
            <Button size="room" onClick={() => setLead(now())}>
              Bar 1 is now
            </Button>
            {beat === null ? null : (
              <>
                <Button size="room" onClick={() => setLead(lead + beat)}>
                  Place back a beat
                </Button>
                <Button size="room" onClick={() => setLead(lead - beat)}>
                  Place on a beat
                </Button>
              </>
            )}
          </>
        ) : (
          <Button tone="main" size="room" onClick={start}>
            Start with the record
          </Button>
        )}
      </div>
      <p className="caption mt-2">
        {lead === 0 ? "Bar 1 is taken to begin with the record." : `Bar 1 begins ${leadWords(lead)}.`} What
        was dropped follows when you correct it.
      </p>
    </section>
  );
};
