import { useEffect, useState } from "react";
import { gigLink, tonightLink } from "#client/pieces/links.ts";
import { step, useAct, useActTogether } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import {
  useAuthor,
  useBand,
  useBoardStore,
  useGigs,
  useRehearsal,
  useSongs,
  useViewpoint,
} from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { NumberField } from "#client/ui/number-field.tsx";
import { Select } from "#client/ui/select.tsx";
import { Sheet } from "#client/ui/sheet.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { USUAL_EVENING } from "#shared/board/rehearsal.ts";
import { endRehearsal, planRehearsal, startRehearsal } from "#shared/commands/plan-rehearsal.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { clockWords } from "#shared/lib/moment-words.ts";
import { eveningTime, pauseSentence, playedWords } from "#shared/selectors/evening-time.ts";
import { isPlaying, useHere } from "./use-here.ts";
import { WhoIsHere } from "./who-is-here.tsx";

const LOOK_AGAIN_MS = 20_000;
const LONGEST = 12 * 60;

export interface EveningPanelProps {
  /** The screen shows the evening as being played, and the songs of its gig. */
  readonly shown: boolean;
  readonly onShow: () => void;
}

/**
 * The start of an evening, its quiet clock while it lasts, and its end. When somebody else starts or ends it, everything
 * keeps its place until this person asks to see it.
 */
export const EveningPanel = ({ shown, onShow }: EveningPanelProps) => {
  const [{ today }] = useViewpoint();
  const { role } = useAuthor();
  const rehearsal = useRehearsal(today);
  const [starting, setStarting] = useState(false);
  const start = () => setStarting(true);
  const begun = isPlaying(rehearsal);
  if (role === "guest" && !shown && !begun) return null;
  return (
    <>
      {shown ? (
        <PlayingLine onGoOn={start} />
      ) : (
        <div className="mb-4">
          <Button tone="main" size="room" className="w-full" onClick={begun ? onShow : start}>
            {begun
              ? "The rehearsal has begun"
              : rehearsal?.endedAt == null
                ? "Start the rehearsal"
                : "Go on with the rehearsal"}
          </Button>
        </div>
      )}
      {starting ? <StartSheet onClose={() => setStarting(false)} onStart={onShow} /> : null}
    </>
  );
};

interface StartSheetProps {
  readonly onClose: () => void;
  readonly onStart: () => void;
}

const StartSheet = ({ onClose, onStart }: StartSheetProps) => {
  const [{ today, gig: next }] = useViewpoint();
  const gigs = useGigs().filter(({ date }) => date >= today);
  const rehearsal = useRehearsal(today);
  const act = useActTogether();
  const [here, setHere] = useHere(today);
  const [booked, setBooked] = useState<number | null>(rehearsal?.booked ?? USUAL_EVENING.booked);
  const [gig, setGig] = useState(rehearsal?.gig ?? next?.id ?? "");
  const start = () => {
    const plan = step(planRehearsal, {
      day: today,
      ...(booked === null ? {} : { booked }),
      ...(gig === "" ? {} : { gig }),
    });
    if (!act([plan, step(startRehearsal, { day: today })], "The rehearsal has begun")) return;
    onStart();
    onClose();
  };
  return (
    <Sheet
      open
      modal
      onClose={onClose}
      title="Start the rehearsal"
      above={dayWords(today, { weekday: true })}
      actions={
        <Button tone="main" size="room" className="flex-1" onClick={start}>
          Start now
        </Button>
      }
    >
      <div className="in-room flex flex-col gap-4">
        <WhoIsHere day={today} here={here} onChange={setHere} />
        <NumberField
          label="Booked"
          unit="min"
          min={10}
          max={LONGEST}
          step={10}
          value={booked}
          onChange={setBooked}
          hint="Set-up, pause and pack-down are part of it."
        />
        {gigs.length === 0 ? null : (
          <Select
            label="For which gig"
            value={gig}
            options={gigs.map(({ id, name, place, date }) => ({
              value: id,
              label: `${dayWords(date, { today })}, ${name || place}`,
            }))}
            onChange={setGig}
          />
        )}
      </div>
    </Sheet>
  );
};

const PlayingLine = ({ onGoOn }: { readonly onGoOn: () => void }) => {
  const href = useHref();
  const act = useAct();
  const store = useBoardStore();
  const { role } = useAuthor();
  const { timeZone } = useBand();
  const songs = useSongs();
  const [{ today, gig: next }] = useViewpoint();
  const rehearsal = useRehearsal(today);
  const [, lookAgain] = useState(0);
  useEffect(() => {
    const timer = window.setInterval(() => lookAgain((n) => n + 1), LOOK_AGAIN_MS);
    return () => window.clearInterval(timer);
  }, []);
  if (rehearsal === undefined || rehearsal.startedAt === null) return null;
  const takes = [...songs.values()].flatMap((file) =>
    file.takes.filter(({ occasion }) => occasion === `r:${today}`),
  );
  const { endedAt } = rehearsal;
  const time = eveningTime(takes, { from: rehearsal.startedAt, to: endedAt ?? store.now() });
  const { booked, setUp, pause, packDown } = rehearsal;
  const gig = rehearsal.gig ?? next?.id;
  return (
    <section aria-label="The rehearsal" className="mb-4 border-b border-line pb-2">
      <p>
        {endedAt === null ? "Since" : "Until"} {clockWords(endedAt ?? rehearsal.startedAt, timeZone)}:{" "}
        {playedWords(time, Math.max(0, booked - setUp - pause - packDown))}.
      </p>
      {/* Keeps its line, so that the suggestion moves nothing. */}
      <p className="min-h-[3.25rem] text-quiet">{endedAt === null ? pauseSentence(time) : ""}</p>
      <p className="flex flex-wrap items-center gap-x-6">
        <TextLink standing href={href(tonightLink())}>
          Tonight so far
        </TextLink>
        {gig === undefined ? null : (
          <TextLink standing href={href(gigLink(gig))}>
            The gig it is for
          </TextLink>
        )}
        {role === "guest" ? null : (
          <Button
            tone="quiet"
            size="room"
            onClick={() =>
              endedAt === null ? act(endRehearsal, { day: today }, "The rehearsal is over") : onGoOn()
            }
          >
            {endedAt === null ? "End the rehearsal" : "Go on with the rehearsal"}
          </Button>
        )}
      </p>
    </section>
  );
};
