import { type FormEvent, useId, useState } from "react";
import { useBoardStore, useGigs, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { NumberField } from "#client/ui/number-field.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { Rehearsal } from "#shared/board/rehearsal.ts";
import { planRehearsal } from "#shared/commands/plan-rehearsal.ts";
import { isDay } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { eveningOn, lastEvening, playingMinutes } from "#shared/selectors/evenings.ts";
import { dayText } from "./day-text.ts";
import { MissingLine } from "./missing-line.tsx";
import { useTellDone } from "./use-act.ts";

export interface RehearsalFormProps {
  /** Null = a new one. */
  readonly rehearsal: Rehearsal | null;
  readonly onClose: () => void;
}

const MINUTES_MAX = 1440;
const NEXT_GIG = "";

const DEDUCTIONS = [
  { field: "setUp", label: "Set-up" },
  { field: "pause", label: "Pause" },
  { field: "packDown", label: "Pack-down" },
] as const;

/** Day, time, place and minutes of one evening, and the gig it is for. A day that has an evening already is changed. */
export const RehearsalForm = ({ rehearsal, onClose }: RehearsalFormProps) => {
  const store = useBoardStore();
  const tell = useTellDone();
  const form = useId();
  const gigs = useGigs();
  const [{ today }] = useViewpoint();
  // Bands rehearse the way they did last time.
  const [like] = useState(() => rehearsal ?? lastEvening(store.board()) ?? eveningOn(store.board(), today));
  const [day, setDay] = useState(rehearsal?.day ?? "");
  const [start, setStart] = useState(like.start);
  const [place, setPlace] = useState(like.place);
  const [minutes, setMinutes] = useState<Readonly<Record<Minutes, number | null>>>({
    booked: like.booked,
    setUp: like.setUp,
    pause: like.pause,
    packDown: like.packDown,
  });
  const [gig, setGig] = useState(rehearsal?.gig ?? NEXT_GIG);
  const [tried, setTried] = useState(false);
  const [refused, setRefused] = useState("");
  const set = (field: Minutes) => (value: number | null) => setMinutes((now) => ({ ...now, [field]: value }));
  const whole = wholeMinutes(minutes);
  const playing = playingMinutes(whole);
  const taken = rehearsal === null && isDay(day) && store.board().rehearsals.some((one) => one.day === day);
  const save = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (!isDay(day)) return;
    const label = `${rehearsal === null && !taken ? "Planned" : "Changed"}: rehearsal on ${dayWords(day, { weekday: true })}`;
    const served = gig === NEXT_GIG ? null : gig;
    const result = store.run(
      planRehearsal,
      { day, start, place: place.trim(), ...whole, gig: served },
      label,
    );
    if (!result.ok) return setRefused(result.error.sentence);
    tell(result.value);
    onClose();
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title={rehearsal === null ? "Plan a rehearsal" : `Rehearsal of ${dayWords(rehearsal.day)}`}
      actions={
        <>
          <Button tone="main" type="submit" form={form}>
            {rehearsal === null ? "Plan it" : "Save"}
          </Button>
          <Button tone="quiet" onClick={onClose}>
            Leave it
          </Button>
        </>
      }
    >
      <form id={form} noValidate onSubmit={save} className="flex flex-col gap-4">
        {rehearsal === null ? (
          <div>
            <TextField
              label="Day"
              type="date"
              value={day}
              onChange={setDay}
              error={tried && !isDay(day) ? "Give the day." : undefined}
              hint={taken ? "There is a rehearsal on that day already. Saving changes it." : undefined}
              data-first-focus
            />
            <div className="mt-1">{isDay(day) ? <MissingLine day={day} /> : null}</div>
          </div>
        ) : null}
        <TextField
          label="Start"
          type="time"
          value={start}
          onChange={setStart}
          data-first-focus={rehearsal !== null}
        />
        <TextField label="Place" value={place} onChange={setPlace} maxLength={200} />
        <NumberField
          label="Minutes booked"
          value={minutes.booked}
          onChange={set("booked")}
          min={0}
          max={MINUTES_MAX}
          step={15}
          error={tried ? refused || undefined : undefined}
        />
        <div className="grid grid-cols-1 gap-4 laptop:grid-cols-3">
          {DEDUCTIONS.map(({ field, label }) => (
            <NumberField
              key={field}
              label={`${label}, minutes`}
              value={minutes[field]}
              onChange={set(field)}
              min={0}
              max={MINUTES_MAX}
              step={5}
            />
          ))}
        </div>
        <p>{playing === 0 ? "That leaves no minutes to play." : `That leaves ${playing} minutes to play.`}</p>
        <Select
          label="For which gig"
          value={gig}
          options={[
            { value: NEXT_GIG, label: "the next one" },
            ...gigs
              .filter(({ id, date }) => date >= today || id === gig)
              .map(({ id, name, date }) => ({ value: id, label: `${name}, ${dayText(date, today)}` })),
          ]}
          onChange={setGig}
        />
      </form>
    </Dialog>
  );
};

type Minutes = "booked" | (typeof DEDUCTIONS)[number]["field"];

/** An emptied field takes nothing off. */
const wholeMinutes = (minutes: Readonly<Record<Minutes, number | null>>) => ({
  booked: minutes.booked ?? 0,
  setUp: minutes.setUp ?? 0,
  pause: minutes.pause ?? 0,
  packDown: minutes.packDown ?? 0,
});
