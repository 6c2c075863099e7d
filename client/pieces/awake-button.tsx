import Moon from "lucide-react/icons/moon";
import Sun from "lucide-react/icons/sun";
import { Button } from "#client/ui/button.tsx";
import { type Awake, useAwake } from "./use-awake.ts";

export interface AwakeChoiceProps {
  readonly awake: Awake;
  readonly want: (wanted: boolean) => void;
}

/** Says whether the screen stays on, and changes it. Both words take the same room. */
export const AwakeChoice = ({ awake, want }: AwakeChoiceProps) => {
  if (awake === "insecure" || awake === "unknown to it")
    return (
      <p className="text-quiet">
        {awake === "insecure"
          ? "The screen may sleep: over plain http no browser lets a page keep it on. Set it in the phone's own settings."
          : "The screen may sleep: this browser cannot keep it on. Set it in the phone's own settings."}
      </p>
    );
  const on = awake === "on";
  return (
    <Button
      size="room"
      icon={on ? Sun : Moon}
      aria-pressed={on}
      className="min-w-[min(13rem,calc(100vw-2rem))]"
      onClick={() => want(!on)}
    >
      {on ? "Screen stays on" : "Screen may sleep"}
    </Button>
  );
};

/** The same for a screen that is open as long as the button is. */
export const AwakeButton = () => {
  const [awake, want] = useAwake();
  return <AwakeChoice awake={awake} want={want} />;
};
