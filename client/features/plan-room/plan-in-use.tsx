import { useEffect, useState } from "react";
import { roomLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useBoardStore, useSongs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Homework } from "#shared/plan/evening-plan.ts";
import { homeworkOf } from "#shared/plan/homework.ts";
import { blockTimes } from "#shared/selectors/plan-stretch.ts";
import { minutesWord } from "#shared/selectors/plan-words.ts";
import { type PlannedSong, plannedSongs } from "#shared/selectors/planned-songs.ts";
import { HomeworkList } from "./homework-list.tsx";
import { PlanRow } from "./plan-row.tsx";
import type { Evening } from "./use-evening.ts";

export interface PlanInUseProps {
  readonly evening: Evening;
  /** Null = only to be read. */
  readonly onAnew: (() => void) | null;
}

/** What the leader chose: once playing has begun, what was played is said, and the rest is counted from now. */
export const PlanInUse = ({ evening, onAnew }: PlanInUseProps) => {
  const href = useHref();
  const songs = useSongs();
  const homework = useHomework(evening);
  const { evening: rehearsal, stretch, when } = evening;
  const blocks = plannedSongs(songs, rehearsal.plan);
  const begun = rehearsal.startedAt !== null;
  const played = ({ file }: PlannedSong): boolean =>
    begun && file.takes.some(({ occasion }) => occasion === `r:${rehearsal.day}`);
  const ahead = blocks.filter((one) => !played(one));
  const times = blockTimes(
    ahead.map(({ block }) => block),
    stretch.pause,
  );
  const minutes = blocks.reduce((sum, { block }) => sum + block.minutes, 0);
  const whenOf = (one: PlannedSong): string => {
    const time = times[ahead.indexOf(one)];
    if (time === undefined) return "played";
    return rehearsal.endedAt === null ? when(time.from) : "not played";
  };
  return (
    <>
      <section aria-labelledby="plan-in-use">
        <SectionHeading
          title={<span id="plan-in-use">The plan in use</span>}
          aside={`${blocks.length === 1 ? "1 song" : `${blocks.length} songs`}, ${minutesWord(minutes)}`}
        />
        <ol>
          {blocks.map((one) => (
            <PlanRow key={one.key} file={one.file} block={one.block} when={whenOf(one)} />
          ))}
        </ol>
      </section>
      <div className="no-print mt-4 flex flex-wrap items-center gap-x-6 gap-y-3">
        {onAnew === null ? null : <Button onClick={onAnew}>Plan anew</Button>}
        <Button onClick={() => window.print()}>Print</Button>
        <TextLink standing href={href(roomLink())}>
          To the room
        </TextLink>
      </div>
      <HomeworkList homework={homework} />
    </>
  );
};

/** Worked out once the screen has been painted, as the board was when it was opened. */
const useHomework = ({ ask, key }: Evening): readonly Homework[] => {
  const store = useBoardStore();
  const [homework, setHomework] = useState<readonly Homework[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key says when the question has changed
  useEffect(() => {
    const timer = window.setTimeout(() => setHomework(homeworkOf({ ...ask(), now: store.now() })));
    return () => window.clearTimeout(timer);
  }, [key]);
  return homework;
};
