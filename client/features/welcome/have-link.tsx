import { type FormEvent, useState } from "react";
import { type KnownBand, useBandAccess } from "#client/store/band-access.ts";
import { Button } from "#client/ui/button.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { joiningIn } from "#shared/protocol/joining-address.ts";

export interface HaveLinkProps {
  readonly onJoined: (band: KnownBand) => void;
}

/** A link that came by message: the whole message may be pasted. */
export const HaveLink = ({ onJoined }: HaveLinkProps) => {
  const access = useBandAccess();
  const [text, setText] = useState("");
  const [problem, setProblem] = useState("");
  const [busy, setBusy] = useState(false);
  const join = async (event: FormEvent) => {
    event.preventDefault();
    const joining = joiningIn(text);
    if (joining === null)
      return setProblem("There is no link into a board in this. Copy all of it, from http to the end.");
    setBusy(true);
    const answer = await access.joinWith(joining.secret);
    setBusy(false);
    if (!answer.ok) return setProblem(answer.error.message);
    setText("");
    onJoined(answer.value);
  };
  return (
    <form onSubmit={(event) => void join(event)} className="flex items-start gap-3">
      <TextField
        label="Paste the link, or the message it came in"
        value={text}
        onChange={(next) => {
          setText(next);
          setProblem("");
        }}
        error={problem || undefined}
        spellCheck={false}
        className="flex-1"
      />
      <Button type="submit" className="mt-5" disabled={busy}>
        Open
      </Button>
    </form>
  );
};
