import { type FormEvent, useId, useState } from "react";
import { useLocation } from "wouter";
import { Confirm } from "#client/pieces/confirm.tsx";
import { useBandAccess } from "#client/store/band-access.ts";
import { useAuthor, useBand, useBoardId } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { useToast } from "#client/ui/toast.tsx";
import type { Person } from "#shared/board/band.ts";
import { SaveBoard } from "./save-board.tsx";

export interface ErasePersonProps {
  readonly person: Person;
  readonly onDone: () => void;
  readonly onClose: () => void;
}

/** Says what goes with a person and what stays. */
export const ErasePerson = ({ person, onDone, onClose }: ErasePersonProps) => {
  const access = useBandAccess();
  const board = useBoardId();
  const { member } = useAuthor();
  const toast = useToast();
  const erase = async () => {
    const answer = await access.erasePerson(board, person.id);
    if (!answer.ok) return answer;
    toast({ text: `${person.name} is erased.` });
    onDone();
    return answer;
  };
  return (
    <Confirm title={`Erase ${person.name}?`} yes="Erase for good" onYes={erase} onClose={onClose}>
      <p>
        <strong>What goes:</strong> the name, what is private to {person.name}, their devices and personal
        links, and the history of the board before now.
      </p>
      <p>
        <strong>What stays:</strong> marks, takes and slips as numbers, under nobody’s name, so that the
        scores do not change. Whatever others wrote about {person.name} in their own words stays too.
      </p>
      <p className="text-quiet">Backups of the server keep it until they age out. It cannot be undone.</p>
      {person.id === member ? (
        <p className="font-semibold">This is you: your devices are cut off, this one too.</p>
      ) : null}
      <SaveBoard />
    </Confirm>
  );
};

/** Asks for the band's name, to be sure. */
export const EraseBand = ({ onClose }: { readonly onClose: () => void }) => {
  const access = useBandAccess();
  const board = useBoardId();
  const { name } = useBand();
  const form = useId();
  const toast = useToast();
  const [, go] = useLocation();
  const [typed, setTyped] = useState("");
  const [problem, setProblem] = useState("");
  const [busy, setBusy] = useState(false);
  const erase = async (event: FormEvent) => {
    event.preventDefault();
    if (typed.trim() !== name.trim())
      return setProblem(`Type the band's name as it stands here: ${name}. Nothing was erased.`);
    setBusy(true);
    const answer = await access.eraseBand(board, typed.trim());
    setBusy(false);
    if (!answer.ok) return setProblem(answer.error.message);
    go("~/");
    toast({ text: `${name} is erased.` });
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title={`Erase ${name}?`}
      actions={
        <>
          <Button tone="danger" type="submit" form={form} disabled={busy}>
            Erase for good
          </Button>
          <Button onClick={onClose}>Leave it</Button>
        </>
      }
    >
      <div className="flex flex-col gap-3">
        <p>
          Everything of this band goes, for everybody, at once. It cannot be undone. Save the board first if
          anybody may want it: the file can start a new board.
        </p>
        <SaveBoard />
        <form id={form} onSubmit={(event) => void erase(event)}>
          <TextField
            label={`To be sure, type the band's name: ${name}`}
            value={typed}
            onChange={(text) => {
              setTyped(text);
              setProblem("");
            }}
            error={problem || undefined}
            spellCheck={false}
          />
        </form>
      </div>
    </Dialog>
  );
};
