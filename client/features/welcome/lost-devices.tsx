import { type FormEvent, useState } from "react";
import { type LedBand, useBandAccess } from "#client/store/band-access.ts";
import { Button } from "#client/ui/button.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { parseRecoveryCode } from "#shared/protocol/recovery-code.ts";

export interface LostDevicesProps {
  readonly onRecovered: (band: LedBand) => void;
}

/** The recovery code as somebody copies it from paper. */
export const LostDevices = ({ onRecovered }: LostDevicesProps) => {
  const access = useBandAccess();
  const [code, setCode] = useState("");
  const [problem, setProblem] = useState("");
  const [busy, setBusy] = useState(false);
  const recover = async (event: FormEvent) => {
    event.preventDefault();
    if (code.trim() === "") return setProblem("Write the code as it stands on your paper.");
    if (parseRecoveryCode(code) === null)
      return setProblem(
        "This is not a whole recovery code. It has 26 letters and digits, in groups; compare them one by one.",
      );
    setBusy(true);
    const answer = await access.recover(code);
    setBusy(false);
    if (answer.ok) onRecovered(answer.value);
    else setProblem(answer.error.message);
  };
  return (
    <form onSubmit={(event) => void recover(event)} className="flex flex-col items-start gap-3">
      <TextField
        label="Recovery code"
        hint="Small or capital letters, with or without hyphens; I and 1, O and 0 are the same."
        value={code}
        onChange={(text) => {
          setCode(text);
          setProblem("");
        }}
        error={problem || undefined}
        spellCheck={false}
        autoCapitalize="characters"
        className="w-full"
      />
      <Button type="submit" disabled={busy}>
        Lead again
      </Button>
    </form>
  );
};
