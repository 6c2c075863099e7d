import ArrowDown from "lucide-react/icons/arrow-down";
import ArrowUp from "lucide-react/icons/arrow-up";
import { IconButton } from "#client/ui/icon-button.tsx";

export interface StepButtonsProps {
  readonly name: string;
  readonly first: boolean;
  readonly last: boolean;
  readonly onMove: (by: -1 | 1) => void;
}

/** One step up, one step down. At an end the button stays where it is and does nothing, so the focus is not lost. */
export const StepButtons = ({ name, first, last, onMove }: StepButtonsProps) => (
  <>
    <IconButton
      icon={ArrowUp}
      label={`Move ${name} up`}
      aria-disabled={first}
      className="aria-disabled:opacity-50"
      onClick={() => onMove(-1)}
    />
    <IconButton
      icon={ArrowDown}
      label={`Move ${name} down`}
      aria-disabled={last}
      className="aria-disabled:opacity-50"
      onClick={() => onMove(1)}
    />
  </>
);
