import { type FormEvent, useState } from "react";
import { Button } from "#client/ui/button.tsx";
import { NumberField } from "#client/ui/number-field.tsx";
import { LEVEL_LEAST, LEVEL_MOST, type Stretch, stretchFault } from "#shared/music/loudness.ts";

export interface StretchFormProps {
  readonly stretches: readonly Stretch[];
  readonly onAdd: (stretch: Stretch) => void;
}

/** One more stretch of the day: how loud, how long. */
export const StretchForm = ({ stretches, onAdd }: StretchFormProps) => {
  const [level, setLevel] = useState<number | null>(null);
  const [minutes, setMinutes] = useState<number | null>(null);
  const [tried, setTried] = useState(false);
  // An emptied number field shows what was typed before; a new one starts empty.
  const [round, setRound] = useState(0);
  const fault = stretchFault(level, minutes, stretches);
  const faultOf = (field: "level" | "minutes"): string | undefined =>
    tried && fault?.field === field ? fault.sentence : undefined;
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (fault !== null || level === null || minutes === null) {
      setTried(true);
      return;
    }
    onAdd({ level, minutes });
    setMinutes(null);
    setTried(false);
    setRound(round + 1);
  };
  return (
    <form onSubmit={submit} aria-label="How loud, how long" className="flex flex-col gap-4">
      <div className="grid gap-4 tablet:grid-cols-2">
        <NumberField
          label="Level"
          unit="dB(A)"
          value={level}
          onChange={setLevel}
          min={LEVEL_LEAST}
          max={LEVEL_MOST}
          fractions
          hint="From a meter, or from the venue's read-out."
          error={faultOf("level")}
        />
        <NumberField
          key={round}
          label="For"
          unit="minutes"
          value={minutes}
          onChange={setMinutes}
          min={1}
          max={1440}
          step={5}
          error={faultOf("minutes")}
        />
      </div>
      <div>
        <Button type="submit" tone="main">
          Add this stretch
        </Button>
      </div>
    </form>
  );
};
