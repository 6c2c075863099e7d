import Copy from "lucide-react/icons/copy";
import { useRef, useState } from "react";
import { Button } from "#client/ui/button.tsx";
import { TextArea } from "#client/ui/text-field.tsx";

export interface CopyTextProps {
  readonly label: string;
  readonly text: string;
}

/** A text to pass on. Where the page may not copy (plain http), it is selected for the device's own copy command. */
export const CopyText = ({ label, text }: CopyTextProps) => {
  const area = useRef<HTMLTextAreaElement>(null);
  const [said, setSaid] = useState("");
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text);
      setSaid("Copied.");
    } catch {
      area.current?.focus();
      area.current?.select();
      setSaid("Selected: copy it with your device's own copy command.");
    }
  };
  return (
    <div className="flex flex-col items-start gap-2">
      <TextArea
        ref={area}
        label={label}
        value={text}
        onChange={() => {}}
        readOnly
        className="w-full"
        onFocus={(event) => event.target.select()}
      />
      <div className="flex flex-wrap items-center gap-3">
        <Button icon={Copy} onClick={() => void copy()}>
          Copy
        </Button>
        <span role="status" className="caption">
          {said}
        </span>
      </div>
    </div>
  );
};
