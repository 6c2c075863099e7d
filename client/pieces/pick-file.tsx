import { type ChangeEvent, useId, useState } from "react";

interface PickProps {
  readonly label: string;
  /** As the `accept` attribute. */
  readonly accept: string;
}

export interface PickAnyFileProps extends PickProps {
  /** What is done with it; a failure is told as a file that cannot be read. */
  readonly onFile: (file: File) => Promise<void>;
  /** What to choose instead, when it cannot be read. */
  readonly instead: string;
}

/** A file from this device, read here and sent nowhere. */
export const PickAnyFile = ({ label, accept, onFile, instead }: PickAnyFileProps) => {
  const id = useId();
  const [wrong, setWrong] = useState("");
  const pick = async (event: ChangeEvent<HTMLInputElement>) => {
    const input = event.target;
    const file = input.files?.[0];
    if (!file) return;
    try {
      await onFile(file);
      setWrong("");
    } catch {
      setWrong(`“${file.name}” cannot be read. ${instead}`);
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

export interface PickFileProps extends PickProps {
  readonly onText: (text: string, name: string) => void;
}

/** No list and no board comes near this; a film does. */
const BYTES_MAX = 64 * 1024 * 1024;

/** A text file from this device. */
export const PickFile = ({ onText, ...field }: PickFileProps) => (
  <PickAnyFile
    {...field}
    instead="Choose a text file of at most 64 MB."
    onFile={async (file) => {
      if (file.size > BYTES_MAX) throw new Error("too large");
      onText(await file.text(), file.name);
    }}
  />
);
