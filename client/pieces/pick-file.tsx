import { type ChangeEvent, useId, useState } from "react";

export interface PickFileProps {
  readonly label: string;
  /** As the `accept` attribute. */
  readonly accept: string;
  readonly onText: (text: string, name: string) => void;
}

/** No list and no board comes near this; a film does. */
const BYTES_MAX = 64 * 1024 * 1024;

/** A text file from this device, read here and sent nowhere. */
export const PickFile = ({ label, accept, onText }: PickFileProps) => {
  const id = useId();
  const [wrong, setWrong] = useState("");
  const pick = async (event: ChangeEvent<HTMLInputElement>) => {
    const input = event.target;
    const file = input.files?.[0];
    if (!file) return;
    try {
      if (file.size > BYTES_MAX) throw new Error("too large");
      onText(await file.text(), file.name);
      setWrong("");
    } catch {
      setWrong(`“${file.name}” cannot be read. Choose a text file of at most 64 MB.`);
    }
    // The same file may be chosen again after it was mended.
    input.value = "";
  };
  return (
    <div className="mt-3">
      <label htmlFor={id} className="caption block">
        {label}
      </label>
      <input
        id={id}
        type="file"
        accept={accept}
        onChange={(event) => void pick(event)}
        className="min-h-12 w-full max-w-md text-quiet file:mr-4 file:min-h-11 file:rounded-edge file:border file:border-control file:bg-transparent file:px-4 file:text-ink hover:file:border-ink dense:min-h-9 dense:file:min-h-9"
      />
      {wrong ? (
        <p role="alert" className="text-small text-accent">
          {wrong}
        </p>
      ) : null}
    </div>
  );
};
