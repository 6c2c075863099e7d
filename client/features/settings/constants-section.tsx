import RotateCcw from "lucide-react/icons/rotate-ccw";
import { useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { useAuthor, useBand } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { NumberField } from "#client/ui/number-field.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import type { Settings } from "#shared/board/settings.ts";
import { adjustSettings } from "#shared/commands/adjust-settings.ts";
import {
  backToStart,
  CONSTANTS,
  type Constant,
  type ConstantGroup,
  constantDefault,
  constantValue,
} from "#shared/selectors/constants.ts";

const ConstantRow = ({
  constant,
  settings,
}: {
  readonly constant: Constant;
  readonly settings: Settings;
}) => {
  const act = useAct();
  const leads = useAuthor().role === "leader";
  const value = constantValue(settings, constant);
  const start = constantDefault(constant);
  const [draft, setDraft] = useState<number | null>(value);
  const changed = draft !== null && draft !== value;
  const set = (next: number) => {
    const done = act(
      adjustSettings,
      { changes: { [constant.path]: next === start ? null : next } },
      `${constant.label}: ${next}`,
    );
    if (done) setDraft(next);
  };
  const unit = constant.unit === "" ? "" : ` ${constant.unit}`;
  if (!leads) {
    return (
      <li className="border-b border-line py-2">
        <p className="flex justify-between gap-4">
          <span>{constant.label}</span>
          <span>
            {value}
            {unit}
          </span>
        </p>
        <p className="caption">{constant.why}</p>
      </li>
    );
  }
  return (
    <li className="border-b border-line py-3">
      <NumberField
        label={constant.label}
        value={draft}
        onChange={setDraft}
        min={constant.min}
        max={constant.max}
        step={constant.step}
        fractions
        {...(constant.unit === "" ? {} : { unit: constant.unit })}
        hint={`${constant.why} Starts at ${start}${unit}.`}
      />
      {changed ? (
        <Button className="mt-2 mr-3" onClick={() => set(draft)}>
          Use {draft}
          {unit}
        </Button>
      ) : null}
      {value !== start ? (
        <Button tone="quiet" icon={RotateCcw} className="mt-2" onClick={() => set(start)}>
          Back to {start}
          {unit}
        </Button>
      ) : null}
    </li>
  );
};

const Group = ({ group, settings }: { readonly group: ConstantGroup; readonly settings: Settings }) => {
  const own = group.constants.filter((c) => constantValue(settings, c) !== constantDefault(c)).length;
  return (
    <Accordion
      summary={
        <>
          {group.title}
          {own === 0 ? null : <span className="caption ml-2">{own} of your own</span>}
        </>
      }
    >
      <ul className="pb-4 pl-6">
        {group.constants.map((constant) => (
          // A value that arrives from elsewhere starts the row afresh.
          <ConstantRow
            key={`${constant.path} ${constantValue(settings, constant)}`}
            constant={constant}
            settings={settings}
          />
        ))}
      </ul>
    </Accordion>
  );
};

/** The numbers behind the scores. */
export const ConstantsSection = () => {
  const { settings } = useBand();
  const act = useAct();
  const leads = useAuthor().role === "leader";
  const back = backToStart(settings);
  return (
    <section aria-labelledby="constants">
      <SectionHeading title={<span id="constants">The numbers behind the scores</span>} />
      <p className="max-w-2xl pb-3 text-quiet">
        These are starting values, not truths. They were fitted on simulated bands, and the ones about
        forgetting come from studies of other skills. A score puts rehearsal time in order; it is not a
        measured probability.
        {leads
          ? " Change them if your band knows better; everybody's scores follow at once."
          : " The leader changes them."}
      </p>
      <div className="max-w-2xl border-t border-line">
        {CONSTANTS.map((group) => (
          <Group key={group.title} group={group} settings={settings} />
        ))}
      </div>
      {leads && Object.keys(back).length > 0 ? (
        <Button
          className="mt-4"
          onClick={() => act(adjustSettings, { changes: back }, "All numbers are back where they started")}
        >
          All back to where they started
        </Button>
      ) : null}
    </section>
  );
};
