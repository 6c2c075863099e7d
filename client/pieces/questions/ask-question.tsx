import { useState } from "react";
import { Button } from "#client/ui/button.tsx";
import { TextArea } from "#client/ui/text-field.tsx";
import { askQuestion } from "#shared/commands/ask-question.ts";
import { QUESTION_MAX } from "#shared/document/schema.ts";
import { useAct } from "../use-act.ts";

export interface AskQuestionProps {
  readonly song: string;
  /** The detail it is about; null = the whole song. */
  readonly card?: string | null;
  readonly onAsked?: () => void;
}

/** One line to ask the band something about a song or a detail. */
export const AskQuestion = ({ song, card = null, onAsked }: AskQuestionProps) => {
  const act = useAct();
  const [text, setText] = useState("");
  const [fault, setFault] = useState<string | undefined>();
  return (
    <form
      className="no-print flex flex-col items-start gap-3 pt-3"
      onSubmit={(event) => {
        event.preventDefault();
        if (text.trim() === "") setFault("Write what you want to know.");
        else if (act(askQuestion, { song, card, text }, `Asked: ${text.trim()}`)) {
          setText("");
          onAsked?.();
        }
      }}
    >
      <TextArea
        label="Ask the band"
        value={text}
        maxLength={QUESTION_MAX}
        error={fault}
        className="w-full"
        onChange={(value) => {
          setText(value);
          setFault(undefined);
        }}
      />
      <Button type="submit">Ask</Button>
    </form>
  );
};
