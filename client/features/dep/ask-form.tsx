import { type FormEvent, type KeyboardEvent, useEffect, useRef, useState } from "react";
import { Button } from "#client/ui/button.tsx";
import { TextArea } from "#client/ui/text-field.tsx";
import { DEP_TEXT_MAX } from "#shared/protocol/dep-api.ts";

export interface AskFormProps {
  /** What it is about, e.g. a song's title. */
  readonly about: string;
  readonly onAsk: (text: string) => void;
  readonly onLeave: () => void;
}

/** Writes one question where it arises. */
export const AskForm = ({ about, onAsk, onLeave }: AskFormProps) => {
  const [text, setText] = useState("");
  const [fault, setFault] = useState<string | undefined>();
  const area = useRef<HTMLTextAreaElement>(null);
  useEffect(() => area.current?.focus(), []);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (text.trim() === "") setFault("Write what you want to know.");
    else onAsk(text);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === "Escape") onLeave();
  };
  return (
    <form
      onSubmit={submit}
      onKeyDown={onKeyDown}
      aria-label={`Ask about: ${about}`}
      className="mt-2 flex flex-col gap-3 border-l-2 border-control py-2 pl-3 no-print"
    >
      <TextArea
        ref={area}
        label="What do you want to know?"
        hint="The band sees it on its board and answers there."
        value={text}
        maxLength={DEP_TEXT_MAX}
        error={fault}
        onChange={(value) => {
          setText(value);
          setFault(undefined);
        }}
      />
      <div className="flex flex-wrap gap-3">
        <Button tone="main" type="submit">
          Send the question
        </Button>
        <Button onClick={onLeave}>Leave it</Button>
      </div>
    </form>
  );
};
