import { type FormEvent, useEffect, useRef, useState } from "react";
import { useAuthor } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { later } from "#client/ui/later.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { useToast } from "#client/ui/toast.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { addDetail } from "#shared/commands/add-detail.ts";
import { type DraftFault, emptyDraft, type ReadDraft, readDraft } from "#shared/selectors/detail-draft.ts";
import { type Step, step, useActTogether } from "../use-act.ts";
import { DetailFields } from "./detail-fields.tsx";
import type { Beside } from "./new-drawn-fields.tsx";
import { unreadField } from "./unread-field.ts";

const NewDrawnFields = later(async () => (await import("./new-drawn-fields.tsx")).NewDrawnFields, "min-h-12");

export interface AddDetailProps {
  readonly song: SongFile;
  /** Chairs it is for unless somebody says otherwise; none = spotted, to be placed later. */
  readonly chairs: readonly string[];
  readonly label: string;
  readonly hint?: string;
}

const argsOf = (song: string, { chairs, without, ...read }: ReadDraft) => ({
  ...read,
  song,
  chairs: [...chairs],
  ...(without === null ? {} : { without }),
});

/** Adds the detail, then what stands beside it: a new detail is called as the run that added it. */
const stepsFor = (song: string, read: ReadDraft, beside: Beside | null): readonly Step[] => {
  let card = "";
  const add: Step = (store, label) => {
    const done = step(addDetail, argsOf(song, read))(store, label);
    if (done.ok) card = done.value.id;
    return done;
  };
  const others = (beside?.steps ?? []).map(
    (on): Step =>
      (store, label) =>
        on(card)(store, label),
  );
  return [add, ...others];
};

/** One line of text is a detail; where, how much and for whom may follow, now or later. */
export const AddDetail = ({ song, chairs, label, hint }: AddDetailProps) => {
  const act = useActTogether();
  const toast = useToast();
  const { role } = useAuthor();
  const [draft, setDraft] = useState(() => emptyDraft(chairs));
  const [fault, setFault] = useState<DraftFault | null>(null);
  const [open, setOpen] = useState(false);
  const [beside, setBeside] = useState<Beside | null>(null);
  const [added, setAdded] = useState(0);
  const text = useRef<HTMLInputElement>(null);
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    if (fault !== null) form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
  }, [fault]);
  if (role === "guest") return null;

  const submit = (event: FormEvent) => {
    event.preventDefault();
    const read = readDraft(draft, song.sections);
    if (!read.ok) {
      setFault(read.error);
      if (read.error.field === "where") setOpen(true);
      return;
    }
    setFault(null);
    const unread = unreadField(form.current);
    if (unread !== null) {
      unread.focus();
      return;
    }
    if (beside !== null && beside.fault !== null) {
      toast({ text: beside.fault });
      return;
    }
    if (!act(stepsFor(song.song.id, read.value, beside), `Added: ${read.value.text}`)) return;
    setDraft(emptyDraft(chairs));
    setBeside(null);
    setAdded(added + 1);
    text.current?.focus();
  };

  return (
    <form ref={form} onSubmit={submit} className="no-print">
      <div className="flex items-start gap-3">
        <TextField
          ref={text}
          className="flex-1"
          label={label}
          value={draft.text}
          onChange={(value) => {
            setDraft({ ...draft, text: value });
            setFault(null);
          }}
          enterKeyHint="done"
          hint={hint}
          error={fault?.field === "text" ? fault.sentence : undefined}
        />
        <Button type="submit" className="mt-5">
          Add
        </Button>
      </div>
      <Accordion summary="Where, how much, for whom" open={open} onToggle={setOpen} className="border-b-0">
        <DetailFields
          draft={draft}
          onChange={(next) => {
            setDraft(next);
            setFault(null);
          }}
          sections={song.sections}
          fault={fault}
        />
        <NewDrawnFields
          key={added}
          beside={beside}
          song={song}
          kind={draft.kind}
          chairs={draft.chairs}
          where={draft.where}
          onChange={setBeside}
        />
      </Accordion>
    </form>
  );
};
