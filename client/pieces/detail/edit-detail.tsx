import { useEffect, useRef, useState } from "react";
import { TextField } from "#client/ui/text-field.tsx";
import { useToast } from "#client/ui/toast.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Card } from "#shared/board/card.ts";
import { placeDetail, reviseDetail } from "#shared/commands/revise-detail.ts";
import { rewordDetail } from "#shared/commands/reword-detail.ts";
import {
  changesIn,
  type DraftChanges,
  type DraftFault,
  draftOf,
  type ReadDraft,
  readDraft,
} from "#shared/selectors/detail-draft.ts";
import { InPlaceForm } from "../in-place-form.tsx";
import { type Step, step, useActTogether } from "../use-act.ts";
import { DetailFields } from "./detail-fields.tsx";
import { draftFault, drawingSteps, drawnOn, sameDraft } from "./drawn-draft.ts";
import { DrawnFields } from "./drawn-fields.tsx";
import { LearnAgain } from "./learn-again.tsx";
import { unreadField } from "./unread-field.ts";

export interface EditDetailProps {
  readonly card: Card;
  readonly song: SongFile;
  /** Saved, or left as it was. */
  readonly onDone: () => void;
}

/** The commands that turn the card into the draft. "Learn again" is said once, whatever changed. */
const stepsFor = (card: Card, read: ReadDraft, changes: DraftChanges, again: boolean): readonly Step[] => {
  const steps: Step[] = [];
  const { chairs, ...rest } = changes.body;
  const placed = chairs !== undefined && card.chairs.length === 0;
  if (placed && chairs.length > 0) steps.push(step(placeDetail, { card: card.id, chairs: [...chairs] }));
  const body = { ...rest, ...(chairs === undefined || placed ? {} : { chairs: [...chairs] }) };
  const learnAgain = again && changes.matters;
  if (Object.keys(body).length > 0)
    steps.push(step(reviseDetail, { card: card.id, fields: body, learnAgain }));
  for (const field of ["text", "right"] as const)
    if (changes[field])
      steps.push(step(rewordDetail, { card: card.id, field, text: read[field], learnAgain }));
  return steps;
};

/** Rewords or revises a detail where it stands. Escape leaves it as it was. */
export const EditDetail = ({ card, song, onDone }: EditDetailProps) => {
  const act = useActTogether();
  const [draft, setDraft] = useState(() => draftOf(card, song.sections));
  const toast = useToast();
  const [before] = useState(() => drawnOn(card));
  const [drawn, setDrawn] = useState(before);
  const [again, setAgain] = useState(false);
  const [fault, setFault] = useState<DraftFault | null>(null);
  const text = useRef<HTMLInputElement>(null);
  const beside = useRef<HTMLDivElement>(null);
  useEffect(() => text.current?.focus(), []);
  const read = readDraft(draft, song.sections, card);
  const redrawn = !sameDraft(drawn, before);
  const matters = redrawn || (read.ok && changesIn(read.value, card).matters);

  const save = () => {
    if (!read.ok) {
      setFault(read.error);
      return;
    }
    const unread = unreadField(beside.current);
    if (unread !== null) {
      unread.focus();
      return;
    }
    const wrong = redrawn ? draftFault(drawn) : null;
    if (wrong !== null) {
      toast({ text: wrong });
      return;
    }
    const changes = changesIn(read.value, card);
    const steps = [
      ...stepsFor(card, read.value, changes, again),
      ...drawingSteps(before, drawn, again).map((on) => on(card.id)),
    ];
    if (act(steps, `Changed: ${read.value.text}`)) onDone();
  };

  return (
    <InPlaceForm label={card.text} onSave={save} onLeave={onDone}>
      <TextField
        ref={text}
        label="What to do"
        value={draft.text}
        onChange={(value) => setDraft({ ...draft, text: value })}
        error={fault?.field === "text" ? fault.sentence : undefined}
      />
      <DetailFields draft={draft} onChange={setDraft} sections={song.sections} fault={fault} />
      <div ref={beside}>
        <DrawnFields
          drawn={drawn}
          onChange={setDrawn}
          song={song}
          kind={draft.kind}
          chairs={draft.chairs}
          where={draft.where}
        />
      </div>
      {matters ? <LearnAgain what="detail" value={again} onChange={setAgain} /> : null}
    </InPlaceForm>
  );
};
