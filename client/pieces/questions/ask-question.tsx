import { useState } from "react";
import { usePeople } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextArea } from "#client/ui/text-field.tsx";
import { askQuestion } from "#shared/commands/ask-question.ts";
import { QUESTION_MAX } from "#shared/document/schema-log.ts";
import { useAct } from "../use-act.ts";

const NOBODY = "";

export interface AskQuestionProps {
  readonly song: string;
  /** The detail it is about; null = the whole song. */
  readonly card?: string | null;
  /** The ruling that is seen differently; null = a plain question. */
  readonly ruling?: string | null;
  /** Who is most likely to know: chosen to begin with. */
  readonly first?: string | null;
  readonly onAsked?: () => void;
}

/** One line to ask the band something about a song or a detail. */
export const AskQuestion = ({
  song,
  card = null,
  ruling = null,
  first = null,
  onAsked,
}: AskQuestionProps) => {
  const act = useAct();
  const people = usePeople();
  const [text, setText] = useState("");
  const [to, setTo] = useState(first ?? NOBODY);
  const [fault, setFault] = useState<string | undefined>();
  return (
    <form
      className="no-print flex flex-col items-start gap-3 pt-3"
      onSubmit={(event) => {
        event.preventDefault();
        if (text.trim() === "") setFault("Write what you want to know.");
        else if (
          act(
            askQuestion,
            { song, card, ruling, to: to === NOBODY ? null : to, text },
            `Asked: ${text.trim()}`,
          )
        ) {
          setText("");
          onAsked?.();
        }
      }}
    >
      <TextArea
        label={ruling === null ? "Ask the band" : "How do you see it?"}
        value={text}
        maxLength={QUESTION_MAX}
        error={fault}
        className="w-full"
        onChange={(value) => {
          setText(value);
          setFault(undefined);
        }}
      />
      {ruling === null ? (
        <Select
          label="Whom do you ask?"
          value={to}
          options={[
            { value: NOBODY, label: "nobody in particular" },
            ...[...people.values()].map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChange={setTo}
        />
      ) : null}
      <Button type="submit">{ruling === null ? "Ask" : "Put it to the band"}</Button>
    </form>
  );
};
