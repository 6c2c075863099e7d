import { useState } from "react";
import { TextField } from "#client/ui/text-field.tsx";
import { rule } from "#shared/commands/rule.ts";
import { LearnAgain } from "../detail/learn-again.tsx";
import { InPlaceForm } from "../in-place-form.tsx";
import { useAct } from "../use-act.ts";
import { NO_RULING, RulingFields } from "./ruling-fields.tsx";

export interface RulingFormProps {
  readonly song: string;
  /** The detail it is about; null = the song's form. */
  readonly card: string | null;
  /** What it is about, in words: "the form", or the detail's own. */
  readonly on: string;
  readonly onDone: () => void;
}

/** Writes down what was decided about a detail or a song's form: from where, why, and what it means to who knows it. */
export const RulingForm = ({ song, card, on, onDone }: RulingFormProps) => {
  const act = useAct();
  const [text, setText] = useState("");
  const [ruling, setRuling] = useState(NO_RULING);
  const [learnAgain, setLearnAgain] = useState(false);
  const [fault, setFault] = useState<string | undefined>();
  const save = () => {
    if (text.trim() === "") {
      setFault("Say what was decided.");
      return;
    }
    const about = card === null ? ("form" as const) : ("detail" as const);
    const { source, why } = ruling;
    const args = { song, card, about, source, text, why: why.trim(), learnAgain };
    if (act(rule, args, `Ruled on ${on}: ${text.trim()}`)) onDone();
  };
  return (
    <InPlaceForm label={`the ruling on ${on}`} onSave={save} onLeave={onDone}>
      <TextField
        autoFocus
        label="What was decided"
        value={text}
        maxLength={4000}
        error={fault}
        onChange={(value) => {
          setText(value);
          setFault(undefined);
        }}
      />
      <RulingFields always ruling={ruling} onChange={setRuling} />
      <LearnAgain what={card === null ? "song" : "detail"} value={learnAgain} onChange={setLearnAgain} />
    </InPlaceForm>
  );
};
