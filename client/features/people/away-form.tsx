import { type FormEvent, useId, useState } from "react";
import { useTellDone } from "#client/pieces/use-act.ts";
import { useAuthor, useBoardStore, usePeople, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { sayAway } from "#shared/commands/say-who-is-here.ts";
import { isDay } from "#shared/lib/calendar.ts";
import { awayDays, REASON_MAX } from "#shared/selectors/away-days.ts";

export interface AwayFormProps {
  readonly onClose: () => void;
  /** Called with the id of what was said and with why, once the days are written down. */
  readonly onSaid: (away: string, reason: string) => void;
}

const errorsOf = (from: string, to: string) => ({
  from: isDay(from) ? undefined : "Give the first day you cannot come.",
  to: isDay(from) && isDay(to) && to < from ? "The last day lies before the first. Correct one." : undefined,
});

/** From when to when somebody cannot come: the member for themselves, a leader for anybody. */
export const AwayForm = ({ onClose, onSaid }: AwayFormProps) => {
  const store = useBoardStore();
  const tell = useTellDone();
  const form = useId();
  const people = usePeople();
  const { member, role } = useAuthor();
  const [{ today }] = useViewpoint();
  const [person, setPerson] = useState(member ?? [...people.keys()][0] ?? "");
  const [from, setFrom] = useState("");
  const [last, setLast] = useState("");
  const [reason, setReason] = useState("");
  const [tried, setTried] = useState(false);
  const [refused, setRefused] = useState("");
  const to = last === "" ? from : last;
  const errors = errorsOf(from, to);
  const own = person === member;
  const save = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (errors.from !== undefined || errors.to !== undefined) return;
    const label = `${people.get(person)?.name ?? "Somebody"} is away: ${awayDays({ from, to }, today)}`;
    const result = store.run(sayAway, { person, from, to }, label);
    if (!result.ok) return setRefused(result.error.sentence);
    tell(result.value);
    onClose();
    // A new record bears the id of the change that made it.
    onSaid(result.value.id, own ? reason.trim() : "");
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title="Say days away"
      actions={
        <>
          <Button tone="main" type="submit" form={form}>
            Save
          </Button>
          <Button tone="quiet" onClick={onClose}>
            Leave it
          </Button>
        </>
      }
    >
      <form id={form} noValidate onSubmit={save} className="flex flex-col gap-4">
        {role === "leader" ? (
          <Select
            label="Who"
            value={person}
            options={[...people.values()].map(({ id, name }) => ({
              value: id,
              label: id === member ? `${name} (you)` : name,
            }))}
            onChange={setPerson}
          />
        ) : null}
        <TextField
          label="First day away"
          type="date"
          value={from}
          onChange={setFrom}
          error={tried ? (errors.from ?? (refused || undefined)) : undefined}
          data-first-focus
        />
        <TextField
          label="Last day away"
          type="date"
          value={last}
          onChange={setLast}
          hint="Empty means that one day only. The band sees the days."
          error={tried ? errors.to : undefined}
        />
        {own ? (
          <TextField
            label="Why, for yourself (may stay empty)"
            value={reason}
            onChange={setReason}
            maxLength={REASON_MAX}
            hint="Never on the board: it lies on the server, and only your own confirmed devices show it. Whoever runs the server can read it. It needs a signal; the days do not."
          />
        ) : null}
      </form>
    </Dialog>
  );
};
