import { useMemo } from "react";
import { useNames } from "#client/pieces/use-names.ts";
import { useChairs } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { Choice } from "#client/ui/choice.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Severity } from "#shared/board/take.ts";
import { type SlipChoice, severityOf, slipChoices } from "#shared/selectors/slip-choices.ts";
import type { DraftSlip } from "#shared/selectors/take-draft.ts";

export interface SlipPickerProps {
  readonly song: SongFile;
  readonly slips: readonly DraftSlip[];
  readonly onSet: (choice: SlipChoice, severity: Severity | 0) => void;
}

const SEVERITY_OPTIONS = [
  { value: "0.5", label: "small" },
  { value: "1", label: "slip" },
  { value: "2", label: "wreck" },
] as const;

const keyOf = ({ chair, card }: SlipChoice): string => `${chair ?? ""} ${card ?? ""}`;

const SlipLine = (props: {
  readonly choice: SlipChoice;
  readonly severity: Severity | 0;
  readonly onSet: SlipPickerProps["onSet"];
}) => {
  const { choice, severity, onSet } = props;
  return (
    <li className="border-b border-line">
      <Checkbox
        size="room"
        className="py-1"
        label={<span className={severity === 0 ? undefined : "font-semibold text-slip"}>{choice.words}</span>}
        hint={choice.note}
        checked={severity !== 0}
        onChange={(slipped) => onSet(choice, slipped ? 1 : 0)}
      />
      {severity === 0 ? null : (
        <Choice
          label={`How bad: ${choice.words}`}
          hideLabel
          size="room"
          className="mb-2 ml-9"
          value={`${severity}`}
          options={SEVERITY_OPTIONS}
          onChange={(value) => onSet(choice, value === "0.5" ? 0.5 : value === "2" ? 2 : 1)}
        />
      )}
    </li>
  );
};

/** What slipped: musts in sight, lifts and whole chairs folded, and a line for what nobody can place. */
export const SlipPicker = ({ song, slips, onSet }: SlipPickerProps) => {
  const chairs = useChairs();
  const names = useNames();
  const choices = useMemo(() => slipChoices(song, chairs, names), [song, chairs, names]);
  const lines = (list: readonly SlipChoice[]) => (
    <ul>
      {list.map((choice) => (
        <SlipLine key={keyOf(choice)} choice={choice} severity={severityOf(slips, choice)} onSet={onSet} />
      ))}
    </ul>
  );
  const fold = (title: string, list: readonly SlipChoice[]) => {
    const marked = list.filter((choice) => severityOf(slips, choice) !== 0).length;
    return list.length === 0 ? null : (
      <Accordion
        size="room"
        summary={
          <>
            {title} <span className="text-quiet">{marked === 0 ? list.length : `${marked} slipped`}</span>
          </>
        }
      >
        {lines(list)}
      </Accordion>
    );
  };
  return (
    <>
      {lines(choices.musts)}
      {fold("Lifts", choices.lifts)}
      {fold("Somebody's part", choices.chairs)}
      {lines([choices.nobody])}
    </>
  );
};
