import { type Drawn, draftFault, drawingSteps, NOTHING_DRAWN, type StepOn } from "./drawn-draft.ts";
import { DrawnFields, type DrawnFieldsProps } from "./drawn-fields.tsx";

/** What is written beside a detail that is not there yet. */
export interface Beside {
  readonly drawn: Drawn;
  /** Why it cannot be kept; null when it can. */
  readonly fault: string | null;
  readonly steps: readonly StepOn[];
}

export interface NewDrawnFieldsProps extends Omit<DrawnFieldsProps, "drawn" | "onChange"> {
  /** null = nothing yet. */
  readonly beside: Beside | null;
  readonly onChange: (beside: Beside) => void;
}

/** The same forms for a detail that is about to be added. */
export const NewDrawnFields = ({ beside, onChange, ...rest }: NewDrawnFieldsProps) => (
  <DrawnFields
    {...rest}
    drawn={beside?.drawn ?? NOTHING_DRAWN}
    onChange={(drawn) =>
      onChange({ drawn, fault: draftFault(drawn), steps: drawingSteps(NOTHING_DRAWN, drawn, false) })
    }
  />
);
