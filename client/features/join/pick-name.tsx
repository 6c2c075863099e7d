import { type FormEvent, useState } from "react";
import { ChairChecks } from "#client/pieces/chair-checks.tsx";
import { step, useActTogether } from "#client/pieces/use-act.ts";
import { useClaim } from "#client/pieces/use-claim.ts";
import { useBand, useBoardStore, useChairs, usePeople } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { PageHeading, SectionHeading } from "#client/ui/page-heading.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { Chair, Person } from "#shared/board/band.ts";
import { giveChair } from "#shared/commands/add-chair.ts";
import { addPerson } from "#shared/commands/add-person.ts";

export interface PickNameProps {
  readonly onDone: () => void;
}

const chairsOf = (chairs: readonly Chair[], person: string): readonly Chair[] =>
  chairs.filter(({ holder }) => holder === person);

/** The chairs of whoever was picked: what they hold already, and what they may take as well. */
const ConfirmChairs = (props: {
  readonly person: Person;
  readonly onDone: () => void;
  readonly onBack: () => void;
}) => {
  const { person } = props;
  const all = useChairs();
  const together = useActTogether();
  const claim = useClaim();
  const [chairs, setChairs] = useState<ReadonlySet<string>>(
    () => new Set(chairsOf(all, person.id).map(({ id }) => id)),
  );
  const [problem, setProblem] = useState("");
  const confirm = async () => {
    const answer = await claim(person.id);
    if (!answer.ok) return setProblem(answer.error);
    const steps = all.flatMap((chair) => {
      const held = chair.holder === person.id;
      if (held === chairs.has(chair.id)) return [];
      return [step(giveChair, { chair: chair.id, holder: held ? "" : person.id })];
    });
    if (steps.length === 0 || together(steps, `Chairs of ${person.name}`)) props.onDone();
  };
  return (
    <div className="flex max-w-xl flex-col items-start gap-4">
      <p>
        You are <strong>{person.name}</strong>. Marks and takes from this device carry that name.
      </p>
      <ChairChecks value={chairs} onChange={setChairs} person={person.id} />
      {problem ? <ErrorNote title={problem} /> : null}
      <div className="flex flex-wrap gap-3">
        <Button tone="main" size="room" onClick={() => void confirm()}>
          That is me
        </Button>
        <Button size="room" onClick={props.onBack}>
          Somebody else
        </Button>
      </div>
    </div>
  );
};

/** Somebody the board does not know yet. */
const AddYourself = ({ onDone }: PickNameProps) => {
  const store = useBoardStore();
  const claim = useClaim();
  const [name, setName] = useState("");
  const [chairs, setChairs] = useState<ReadonlySet<string>>(new Set());
  const [refused, setRefused] = useState("");
  const [problem, setProblem] = useState("");
  const [added, setAdded] = useState<string | null>(null);
  const add = async (event: FormEvent) => {
    event.preventDefault();
    let person = added;
    if (person === null) {
      if (name.trim() === "") return setRefused("Write your name.");
      const result = store.run(addPerson, { name, chairs: [...chairs] }, `Added ${name.trim()}`);
      if (!result.ok) return setRefused(result.error.sentence);
      // A new record bears the id of the change that made it.
      person = result.value.id;
      setAdded(person);
    }
    const answer = await claim(person);
    if (answer.ok) onDone();
    else setProblem(answer.error);
  };
  return (
    <form onSubmit={(event) => void add(event)} className="flex max-w-xl flex-col items-start gap-4">
      <TextField
        label="Your name"
        value={name}
        maxLength={200}
        disabled={added !== null}
        onChange={(text) => {
          setName(text);
          setRefused("");
        }}
        error={refused || undefined}
        className="w-full"
      />
      <ChairChecks value={chairs} onChange={setChairs} person={null} />
      {problem ? <ErrorNote title={problem} /> : null}
      <Button type="submit">{added === null ? "Add me" : "Try again"}</Button>
    </form>
  );
};

/** Who are you? Picks a name on the board or adds it, with the chairs, and makes this device theirs. */
export const PickName = ({ onDone }: PickNameProps) => {
  const { name } = useBand();
  const people = usePeople();
  const chairs = useChairs();
  const [picked, setPicked] = useState<string | null>(null);
  const person = picked === null ? undefined : people.get(picked);
  const note = ({ id, dep }: Person): string =>
    [
      dep ? "dep" : "",
      chairsOf(chairs, id)
        .map((chair) => chair.name)
        .join(", "),
    ]
      .filter((part) => part !== "")
      .join(" · ");
  return (
    <>
      <PageHeading title="Who are you?" above={name} />
      {person ? (
        <ConfirmChairs key={person.id} person={person} onDone={onDone} onBack={() => setPicked(null)} />
      ) : (
        <>
          <ul className="max-w-xl border-t border-line">
            {[...people.values()].map((one) => (
              <ListRow key={one.id} size="room" note={note(one)} onOpen={() => setPicked(one.id)}>
                {one.name}
              </ListRow>
            ))}
          </ul>
          <div className="max-w-xl">
            <SectionHeading title={people.size === 0 ? "Add your name" : "You are not on the list?"} />
          </div>
          <AddYourself onDone={onDone} />
        </>
      )}
    </>
  );
};
