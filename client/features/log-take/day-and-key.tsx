import { useViewpoint } from "#client/store/hooks.ts";
import { TextField } from "#client/ui/text-field.tsx";
import type { TakeDraft, TakeFault } from "#shared/selectors/take-draft.ts";

export interface DayAndKeyProps {
  readonly draft: TakeDraft;
  readonly change: (fields: Partial<TakeDraft>) => void;
  readonly fault: TakeFault | null;
  /** The song's key; empty = not settled. */
  readonly agreed: string;
}

/** For takes that were not today, or not in the key we play it in. */
export const DayAndKey = ({ draft, change, fault, agreed }: DayAndKeyProps) => {
  const [{ today }] = useViewpoint();
  const mend = (field: TakeFault["field"]) => (fault?.field === field ? fault.sentence : undefined);
  return (
    <div className="grid grid-cols-1 gap-4 pb-4 tablet:grid-cols-2">
      {draft.kind === "gig" ? null : (
        <TextField
          label="Day"
          type="date"
          max={today}
          value={draft.day ?? today}
          onChange={(day) => change({ day: day === today || day === "" ? null : day })}
          error={mend("day")}
          hint={draft.day === null ? "Today." : "An earlier day: it counts from then."}
        />
      )}
      <TextField
        label="Key, if it was another"
        value={draft.key}
        onChange={(key) => change({ key })}
        placeholder={agreed}
        error={mend("key")}
        autoCapitalize="off"
        spellCheck={false}
      />
    </div>
  );
};
