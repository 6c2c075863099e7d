import { useEffect, useRef, useState } from "react";
import { TextField } from "#client/ui/text-field.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Card } from "#shared/board/card.ts";
import { describeGrid, describeShape } from "#shared/commands/describe-grid.ts";
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
import { sameDrawn } from "#shared/selectors/grid-draft.ts";
import { InPlaceForm } from "../in-place-form.tsx";
import { type Step, step, useActTogether } from "../use-act.ts";
import { DetailFields } from "./detail-fields.tsx";
import { type Drawn, DrawnFields } from "./drawn-fields.tsx";
import { LearnAgain } from "./learn-again.tsx";

export interface EditDetailProps {
  readonly card: Card;
  readonly song: SongFile;
  /** Saved, or left as it was. */
  readonly onDone: () => void;
}

const drawnOn = ({ grid, shape }: Card): Drawn => ({ grid: grid ?? null, shape: shape ?? null });

const isRedrawn = (card: Card, { grid, shape }: Drawn): boolean =>
  !sameDrawn(grid, drawnOn(card).grid) || !sameDrawn(shape, drawnOn(card).shape);

/** The commands that change what is drawn; what stays as it is, is not written again over somebody else's. */
const drawingSteps = (card: Card, { grid, shape }: Drawn, learnAgain: boolean): readonly Step[] => [
  ...(sameDrawn(grid, drawnOn(card).grid)
    ? []
    : [
        step(describeGrid, {
          card: card.id,
          grid: grid === null ? null : { ...grid, rows: grid.rows.map((row) => ({ ...row })) },
          learnAgain,
        }),
      ]),
  ...(sameDrawn(shape, drawnOn(card).shape)
    ? []
    : [
        step(describeShape, {
          card: card.id,
          shape: shape === null ? null : { ...shape, frets: [...shape.frets], fingers: [...shape.fingers] },
          learnAgain,
        }),
      ]),
];

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
  const [drawn, setDrawn] = useState(() => drawnOn(card));
  const [again, setAgain] = useState(false);
  const [fault, setFault] = useState<DraftFault | null>(null);
  const text = useRef<HTMLInputElement>(null);
  useEffect(() => text.current?.focus(), []);
  const read = readDraft(draft, song.sections, card);
  const redrawn = isRedrawn(card, drawn);
  const matters = redrawn || (read.ok && changesIn(read.value, card).matters);

  const save = () => {
    if (!read.ok) {
      setFault(read.error);
      return;
    }
    const changes = changesIn(read.value, card);
    const steps = [...stepsFor(card, read.value, changes, again), ...drawingSteps(card, drawn, again)];
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
      <DrawnFields
        drawn={drawn}
        onChange={setDrawn}
        song={song.song}
        kind={draft.kind}
        chairs={draft.chairs}
      />
      {matters ? <LearnAgain what="detail" value={again} onChange={setAgain} /> : null}
    </InPlaceForm>
  );
};
