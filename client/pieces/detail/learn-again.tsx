import { Choice } from "#client/ui/choice.tsx";

export interface LearnAgainProps {
  /** What was changed: "detail", "song". */
  readonly what: string;
  readonly value: boolean;
  readonly onChange: (learnAgain: boolean) => void;
}

/** Asks what an edit means for those who know the old version already. */
export const LearnAgain = ({ what, value, onChange }: LearnAgainProps) => (
  <div>
    <Choice
      label="What does this change mean for those who have learnt it?"
      value={value ? "again" : "same"}
      options={[
        { value: "same", label: `Same ${what}, better said` },
        { value: "again", label: "Learn it again" },
      ]}
      onChange={(chosen) => onChange(chosen === "again")}
    />
    <p className="caption mt-1" aria-live="polite">
      {value
        ? "What was practised or locked in counts as noticed until its player says it again."
        : "Everybody keeps the status they have."}
    </p>
  </div>
);
