import { type FormEvent, useState } from "react";
import { type LedBand, useBandAccess } from "#client/store/band-access.ts";
import { Button } from "#client/ui/button.tsx";
import { TextField } from "#client/ui/text-field.tsx";

export interface NewBandProps {
  readonly onStarted: (band: LedBand) => void;
}

/** A band from nothing: its name is enough. */
export const NewBand = ({ onStarted }: NewBandProps) => {
  const access = useBandAccess();
  const [name, setName] = useState("");
  const [problem, setProblem] = useState("");
  const [busy, setBusy] = useState(false);
  const start = async (event: FormEvent) => {
    event.preventDefault();
    if (name.trim() === "") return setProblem("Give your band a name first; it can be changed later.");
    setBusy(true);
    const answer = await access.createBoard(name.trim());
    setBusy(false);
    if (answer.ok) onStarted(answer.value);
    else setProblem(answer.error.message);
  };
  return (
    <form onSubmit={(event) => void start(event)} className="flex items-start gap-3">
      <TextField
        label="Name of your band"
        value={name}
        maxLength={200}
        onChange={(text) => {
          setName(text);
          setProblem("");
        }}
        error={problem || undefined}
        className="flex-1"
      />
      <Button type="submit" className="mt-5" disabled={busy}>
        Start
      </Button>
    </form>
  );
};
