import { type FormEvent, useId, useState } from "react";
import { ChairChecks } from "#client/pieces/chair-checks.tsx";
import { step, useActTogether } from "#client/pieces/use-act.ts";
import { VoiceFields } from "#client/pieces/voice-fields.tsx";
import { useAuthor, useChairs, usePeople } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { Person } from "#shared/board/band.ts";
import { giveChair } from "#shared/commands/add-chair.ts";
import { addPerson, revisePerson } from "#shared/commands/add-person.ts";
import { foldText } from "#shared/lib/fold-text.ts";
import { readVoice, type VoiceText, voiceText } from "#shared/selectors/voice-draft.ts";

export interface PersonFormProps {
  /** Null = somebody new. */
  readonly person: Person | null;
  readonly onClose: () => void;
}

const nameError = (name: string, person: Person | null, people: Iterable<Person>): string | undefined => {
  if (name.trim() === "") return "Write a name.";
  const twin = [...people].find(
    (other) => other.id !== person?.id && foldText(other.name) === foldText(name),
  );
  return (
    twin && `There is somebody called ${twin.name} already. Add a letter or a surname to tell them apart.`
  );
};

/** Name, whether they are a dep, the chairs they hold, and what they can sing. */
export const PersonForm = ({ person, onClose }: PersonFormProps) => {
  const together = useActTogether();
  const form = useId();
  const people = usePeople();
  const all = useChairs();
  const [name, setName] = useState(person?.name ?? "");
  const [dep, setDep] = useState(person?.dep ?? false);
  const [chairs, setChairs] = useState<ReadonlySet<string>>(
    () => new Set(all.flatMap(({ id, holder }) => (person !== null && holder === person.id ? [id] : []))),
  );
  const { role, member } = useAuthor();
  // Null = as it was.
  const [voice, setVoice] = useState<VoiceText | null>(null);
  const [tried, setTried] = useState(false);
  const error = nameError(name, person, people.values());
  // What somebody can sing, they or a leader say; somebody new has to be there first.
  const sings = person !== null && (role === "leader" || member === person.id);
  const text = voice ?? voiceText(person?.voice ?? null);
  const reading = readVoice(text);
  const seats = (id: string) =>
    all.flatMap((chair) => {
      const held = chair.holder === id;
      if (held === chairs.has(chair.id)) return [];
      return [step(giveChair, { chair: chair.id, holder: held ? "" : id })];
    });
  const save = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (error !== undefined || (sings && !reading.ok)) return;
    const said = name.trim();
    const done =
      person === null
        ? together([step(addPerson, { name, dep, chairs: [...chairs] })], `Added ${said}`)
        : together(
            [
              step(revisePerson, {
                person: person.id,
                name,
                dep,
                ...(voice !== null && reading.ok ? { voice: reading.voice } : {}),
              }),
              ...seats(person.id),
            ],
            `Changed ${said}`,
          );
    if (done) onClose();
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title={person === null ? "Somebody new" : person.name}
      actions={
        <>
          <Button tone="main" type="submit" form={form}>
            {person === null ? "Add" : "Save"}
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
        <Checkbox
          label="A dep"
          hint="Stands in for others; keeps a record of their own and is not asked to practise."
          checked={dep}
          onChange={setDep}
        />
        <ChairChecks value={chairs} onChange={setChairs} person={person?.id ?? null} />
        {sings ? <VoiceFields value={text} onChange={setVoice} reading={tried ? reading : null} /> : null}
      </form>
    </Dialog>
  );
};
