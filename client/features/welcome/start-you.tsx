import { type FormEvent, useState } from "react";
import { ChairChecks } from "#client/pieces/chair-checks.tsx";
import { useClaim } from "#client/pieces/use-claim.ts";
import { useAuthor, useBoardStore, usePeople } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { addPerson } from "#shared/commands/add-person.ts";

/** The leader's own name and chairs; this device becomes theirs. */
export const StartYou = ({ onDone }: { readonly onDone: () => void }) => {
  const store = useBoardStore();
  const people = usePeople();
  const { member } = useAuthor();
  const claim = useClaim();
  const [name, setName] = useState("");
  const [chairs, setChairs] = useState<ReadonlySet<string>>(new Set());
  const [refused, setRefused] = useState("");
  const [problem, setProblem] = useState("");
  const me = member === null ? undefined : people.get(member);
  if (me) {
    return (
      <div className="flex flex-col items-start gap-3">
        <p>
          You are <strong>{me.name}</strong> on this device.
        </p>
        <Button tone="main" onClick={onDone}>
          Go on to the songs
        </Button>
      </div>
    );
  }
  const add = async (event: FormEvent) => {
    event.preventDefault();
    if (name.trim() === "") return setRefused("Write your name.");
    const result = store.run(addPerson, { name, chairs: [...chairs] }, `Added ${name.trim()}`);
    if (!result.ok) return setRefused(result.error.sentence);
    // A new record bears the id of the change that made it.
    const answer = await claim(result.value.id);
    if (answer.ok) onDone();
    else setProblem(answer.error);
  };
  return (
    <form onSubmit={(event) => void add(event)} className="flex flex-col items-start gap-4">
      <TextField
        label="Your name"
        value={name}
        maxLength={200}
        onChange={(text) => {
          setName(text);
          setRefused("");
        }}
        error={refused || undefined}
        className="w-full"
      />
      <ChairChecks value={chairs} onChange={setChairs} person={null} />
      {problem ? (
        <ErrorNote title={problem}>
          Your name is on the board. Say under People whose device this is.
        </ErrorNote>
      ) : null}
      <Button tone="main" type="submit">
        Go on to the songs
      </Button>
    </form>
  );
};
