import { Fragment } from "react";
import { StepButtons } from "#client/pieces/step-buttons.tsx";
import { useNames } from "#client/pieces/use-names.ts";
import { useSteps } from "#client/pieces/use-steps.ts";
import { useSongs } from "#client/store/hooks.ts";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { VisuallyHidden } from "#client/ui/visually-hidden.tsx";
import type { PlanLine } from "#shared/plan/evening-plan.ts";
import { listed } from "#shared/readiness/names.ts";
import { blockTimes } from "#shared/selectors/plan-stretch.ts";
import { PinButtons } from "./pin-buttons.tsx";
import { PlanRow } from "./plan-row.tsx";
import type { Evening } from "./use-evening.ts";
import { useFocusKept } from "./use-focus-kept.ts";
import { Forecast, WhyLines } from "./why-lines.tsx";

export interface ProposedLinesProps {
  readonly evening: Evening;
  readonly lines: readonly PlanLine[];
  readonly minutes: number;
  /** Another plan is being worked out. */
  readonly busy: boolean;
  readonly onMove: (song: string, index: number) => boolean;
}

/** The songs of a proposed plan in playing order, each with its time, its reason, its pins, and a step up or down. */
export const ProposedLines = ({ evening, lines, minutes, busy, onMove }: ProposedLinesProps) => {
  const songs = useSongs();
  const { stretch, phased, when } = evening;
  const { day, pins } = evening.evening;
  const rows = lines.flatMap((line) => {
    const file = songs.get(line.song);
    return file === undefined ? [] : [{ line, file }];
  });
  const times = blockTimes(
    rows.map(({ line: { block, phase } }) => ({
      minutes: block.minutes,
      earliest: phase === 0 ? 0 : (phased.cut ?? 0),
    })),
    stretch.pause,
  );
  const steps = useSteps({
    items: rows.map(({ file }) => ({ id: file.song.id, name: file.song.title })),
    onMove,
  });
  const focus = useFocusKept(steps.list, lines);
  return (
    <section aria-labelledby="proposed" aria-busy={busy}>
      <SectionHeading
        title={<span id="proposed">The plan</span>}
        aside={busy ? "working it out again" : `${Math.round(minutes)} of ${stretch.minutes} minutes`}
      />
      {rows.length === 0 ? (
        <p className="py-3 text-quiet">
          No song would gain anything in these minutes. Book more, or say of a song that it is a must tonight.
        </p>
      ) : null}
      <ol
        onFocus={focus.onFocus}
        ref={(element) => {
          steps.list.current = element;
        }}
      >
        {rows.map(({ line, file }, i) => (
          <Fragment key={file.song.id}>
            {line.phase > 0 && rows[i - 1]?.line.phase !== line.phase ? (
              <SecondStretch evening={evening} />
            ) : null}
            <PlanRow
              file={file}
              block={line.block}
              when={when(times[i]?.from ?? 0)}
              figure={<Forecast line={line} />}
              onKeyDown={steps.onKeyDown(file.song.id)}
              controls={
                <>
                  <PinButtons day={day} song={file.song} pin={pins.get(file.song.id)} />
                  <span className="flex">
                    <StepButtons
                      name={file.song.title}
                      first={rows[i - 1]?.line.phase !== line.phase}
                      last={rows[i + 1]?.line.phase !== line.phase}
                      onMove={(by) => steps.move(file.song.id, by)}
                    />
                  </span>
                </>
              }
            >
              <WhyLines file={file} line={line} />
            </PlanRow>
          </Fragment>
        ))}
      </ol>
      <VisuallyHidden>
        <span role="status">{steps.said}</span>
      </VisuallyHidden>
    </section>
  );
};

/** Where people come or go. */
const SecondStretch = ({ evening: { phased, when } }: { readonly evening: Evening }) => {
  const names = useNames();
  const [before, after] = phased.phases;
  if (before === undefined || after === undefined || phased.cut === null) return null;
  const come = [...after.present].filter((person) => !before.present.has(person)).map(names.member);
  const go = [...before.present].filter((person) => !after.present.has(person)).map(names.member);
  const words = [
    come.length === 0 ? "" : `with ${listed(come)}`,
    go.length === 0 ? "" : `without ${listed(go)}`,
  ].filter((part) => part !== "");
  return (
    <li className="border-b border-control pt-5 pb-1 font-semibold">
      From {when(phased.cut)}: {words.join(", ")}
    </li>
  );
};
