import Copy from "lucide-react/icons/copy";
import Printer from "lucide-react/icons/printer";
import { type ReactNode, useRef, useState } from "react";
import { Button } from "#client/ui/button.tsx";

export interface RecoveryCodeProps {
  /** The band's name, for the sheet of paper. */
  readonly band: string;
  /** In groups with hyphens. */
  readonly code: string;
  /** Somebody says that it is written down; the code goes out of sight. */
  readonly onWritten: () => void;
  /** Other ways on, beside the main one. */
  readonly others?: ReactNode;
}

/** The recovery code, shown once: large groups to write down, to copy, to print. */
export const RecoveryCode = ({ band, code, onWritten, others }: RecoveryCodeProps) => {
  const groups = code.split("-");
  const shown = useRef<HTMLParagraphElement>(null);
  const [said, setSaid] = useState("");
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(code);
      setSaid("Copied. Keep it where you will still have it without this device.");
    } catch {
      // Over plain http a page may not copy; the device itself may.
      if (shown.current) getSelection()?.selectAllChildren(shown.current);
      setSaid("Selected: copy it with your device's own copy command.");
    }
  };
  return (
    <div className="flex max-w-xl flex-col items-start gap-4 border-l-4 border-l-ink pl-4">
      <div>
        <p className="caption">Recovery code of {band}</p>
        <p ref={shown} className="mt-1 flex flex-wrap gap-x-5 gap-y-1 text-title tracking-widest">
          {groups.map((group, place) => (
            // Groups never move, and two may be alike.
            // biome-ignore lint/suspicious/noArrayIndexKey: their place is what they are
            <span key={place}>
              {group}
              {place < groups.length - 1 ? <span className="sr-only">-</span> : null}
            </span>
          ))}
        </p>
      </div>
      <p className="text-quiet">
        Whoever has it can lead this board. Write it on paper and keep that away from your phone. It works
        once; then you get a new one.
      </p>
      <div className="no-print flex flex-wrap items-center gap-3">
        <Button icon={Copy} onClick={() => void copy()}>
          Copy
        </Button>
        <Button icon={Printer} onClick={() => window.print()}>
          Print
        </Button>
        <span role="status" className="caption">
          {said}
        </span>
      </div>
      <div className="no-print flex flex-wrap gap-3">
        <Button tone="main" onClick={onWritten}>
          I have written it down
        </Button>
        {others}
      </div>
    </div>
  );
};
