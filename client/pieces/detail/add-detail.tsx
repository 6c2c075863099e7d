import { type FormEvent, useRef, useState } from "react";
import { useAuthor } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { addDetail } from "#shared/commands/add-detail.ts";
import { type DraftFault, emptyDraft, type ReadDraft, readDraft } from "#shared/selectors/detail-draft.ts";
import { useAct } from "../use-act.ts";
import { DetailFields } from "./detail-fields.tsx";

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

/** One line of text is a detail; where, how much and for whom may follow, now or later. */
export const AddDetail = ({ song, chairs, label, hint }: AddDetailProps) => {
  const act = useAct();
  const { role } = useAuthor();
  const [draft, setDraft] = useState(() => emptyDraft(chairs));
  const [fault, setFault] = useState<DraftFault | null>(null);
  const [open, setOpen] = useState(false);
  const text = useRef<HTMLInputElement>(null);
  if (role === "guest") return null;

  const submit = (event: FormEvent) => {
    event.preventDefault();
    const read = readDraft(draft, song.sections);
    if (!read.ok) {
      setFault(read.error);
      if (read.error.field === "where") setOpen(true);
      else text.current?.focus();
      return;
    }
    setFault(null);
    if (!act(addDetail, argsOf(song.song.id, read.value), `Added: ${read.value.text}`)) return;
    setDraft(emptyDraft(chairs));
    text.current?.focus();
  };

  return (
    <form onSubmit={submit} className="no-print">
      <div className="flex items-end gap-3">
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
        />
        <Button type="submit">Add</Button>
      </div>
      {fault?.field === "text" ? (
        <p role="alert" className="mt-1 text-small text-accent">
          {fault.sentence}
        </p>
      ) : null}
      {hint ? <p className="caption mt-1">{hint}</p> : null}
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
      </Accordion>
    </form>
  );
};
