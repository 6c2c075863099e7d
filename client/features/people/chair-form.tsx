import { type FormEvent, useId, useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { useChairs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { type Chair, INSTRUMENTS, type Instrument } from "#shared/board/band.ts";
import { addChair, reviseChair } from "#shared/commands/add-chair.ts";
import { foldText } from "#shared/lib/fold-text.ts";

export interface ChairFormProps {
  /** Null = a new one. */
  readonly chair: Chair | null;
  readonly onClose: () => void;
}

const SHORT_MAX = 4;

/** Name, short name and instrument of a chair. */
export const ChairForm = ({ chair, onClose }: ChairFormProps) => {
  const act = useAct();
  const form = useId();
  const chairs = useChairs();
  const [name, setName] = useState(chair?.name ?? "");
  const [short, setShort] = useState(chair?.short ?? "");
  const [instrument, setInstrument] = useState<Instrument>(chair?.instrument ?? "guitar");
  const [tried, setTried] = useState(false);
  const taken = chairs.some((other) => other.id !== chair?.id && foldText(other.name) === foldText(name));
  const error =
    name.trim() === "" ? "Give the chair a name, such as Guitar 2."
    : taken ? `There is a chair called ${name.trim()} already. Choose another name.`
    : undefined; // biome-ignore format: one decision
  const save = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (error !== undefined) return;
    const fields = { name, instrument, ...(short.trim() === "" ? {} : { short: short.trim() }) };
    const done =
      chair === null
        ? act(addChair, fields, `Added the chair ${name.trim()}`)
        : act(reviseChair, { chair: chair.id, ...fields }, `Changed the chair ${name.trim()}`);
    if (done) onClose();
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title={chair === null ? "A new chair" : `Chair: ${chair.name}`}
      actions={
        <>
          <Button tone="main" type="submit" form={form}>
            {chair === null ? "Add the chair" : "Save"}
          </Button>
          <Button tone="quiet" onClick={onClose}>
            Leave it
          </Button>
        </>
      }
    >
      <form id={form} onSubmit={save} className="flex flex-col gap-4">
        <TextField
          label="Name"
          value={name}
          onChange={setName}
          error={tried ? error : undefined}
          data-first-focus
        />
        <TextField
          label="Short name for narrow columns"
          hint={`At most ${SHORT_MAX} letters; empty takes the first letters of the name.`}
          value={short}
          onChange={setShort}
          maxLength={SHORT_MAX}
        />
        <Select
          label="Instrument or voice"
          value={instrument}
          options={INSTRUMENTS.map((value) => ({ value, label: value }))}
          onChange={setInstrument}
        />
      </form>
    </Dialog>
  );
};
