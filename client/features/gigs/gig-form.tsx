import { type FormEvent, useId, useState } from "react";
import { useTellDone } from "#client/pieces/use-act.ts";
import { useBoardStore, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { NumberField } from "#client/ui/number-field.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { Gig } from "#shared/board/band.ts";
import { planGig, reviseGig } from "#shared/commands/plan-gig.ts";
import { isDay } from "#shared/lib/calendar.ts";

export interface GigFormProps {
  /** Null = a new one. */
  readonly gig: Gig | null;
  readonly onClose: () => void;
  /** Called with the gig's id once it is written down. */
  readonly onSaved?: (gig: string) => void;
}

const MINUTES_MAX = 1440;
/** One set of a usual evening; the band's last gig says better. */
const USUAL_MINUTES = 45;

const errorsOf = (name: string, date: string, minutes: number | null) => ({
  name: name.trim() === "" ? "Give it a name, such as the place or the occasion." : undefined,
  date: isDay(date) ? undefined : "Give the day.",
  minutes: minutes === null ? "Give the minutes you are booked to play." : undefined,
});

/** Name, day, place and contracted minutes of a gig. */
export const GigForm = ({ gig, onClose, onSaved }: GigFormProps) => {
  const store = useBoardStore();
  const tell = useTellDone();
  const form = useId();
  const [{ today }] = useViewpoint();
  const [name, setName] = useState(gig?.name ?? "");
  const [date, setDate] = useState(gig?.date ?? "");
  const [place, setPlace] = useState(gig?.place ?? "");
  const [minutes, setMinutes] = useState<number | null>(
    gig?.minutes ?? store.board().gigs.at(-1)?.minutes ?? USUAL_MINUTES,
  );
  const [tried, setTried] = useState(false);
  const [refused, setRefused] = useState("");
  const errors = errorsOf(name, date, minutes);
  const save = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (errors.name || errors.date || minutes === null) return;
    const fields = { name, date, place: place.trim(), minutes };
    const result =
      gig === null
        ? store.run(planGig, fields, `Planned: ${name.trim()}`)
        : store.run(reviseGig, { gig: gig.id, ...fields }, `Changed: ${name.trim()}`);
    if (!result.ok) return setRefused(result.error.sentence);
    const change = result.value;
    tell(change);
    onClose();
    // A new record bears the id of the change that made it.
    onSaved?.(gig?.id ?? change.id);
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title={gig === null ? "Plan a gig" : "Change the gig"}
      actions={
        <>
          <Button tone="main" type="submit" form={form}>
            {gig === null ? "Plan it" : "Save"}
          </Button>
          <Button tone="quiet" onClick={onClose}>
            Leave it
          </Button>
        </>
      }
    >
      <form id={form} noValidate onSubmit={save} className="flex flex-col gap-4">
        <TextField
          label="Name"
          value={name}
          onChange={setName}
          maxLength={200}
          error={tried ? errors.name : refused || undefined}
          data-first-focus
        />
        <TextField
          label="Day"
          type="date"
          value={date}
          onChange={setDate}
          error={tried ? errors.date : undefined}
          hint={
            isDay(date) && date < today
              ? "That day has passed. That is fine: what was played can still be logged."
              : undefined
          }
        />
        <TextField label="Place" value={place} onChange={setPlace} maxLength={200} />
        <NumberField
          label="Contracted playing minutes"
          value={minutes}
          onChange={setMinutes}
          min={0}
          max={MINUTES_MAX}
          step={5}
          error={tried ? errors.minutes : undefined}
        />
      </form>
    </Dialog>
  );
};
