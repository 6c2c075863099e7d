import { useMemo } from "react";
import { step, useActTogether } from "#client/pieces/use-act.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useAways, useBoardStore, usePeople, useRehearsal, useViewpoint } from "#client/store/hooks.ts";
import type { Rehearsal } from "#shared/board/rehearsal.ts";
import { sayWhoIsHere, standIn } from "#shared/commands/say-who-is-here.ts";
import { listed } from "#shared/readiness/names.ts";
import { eveningOn, withAways } from "#shared/selectors/evenings.ts";
import { type PresenceChange, presenceChange, presentAt, type WhoIsHere } from "#shared/selectors/seating.ts";

/** True while an evening is being played: somebody started it and nobody ended it. */
export const isPlaying = (rehearsal: Rehearsal | undefined): boolean =>
  rehearsal !== undefined && rehearsal.startedAt !== null && rehearsal.endedAt === null;

/** Who is here on one day, as all phones know it, and how to say otherwise. An earlier day is told as a whole. */
export const useHere = (day: string): readonly [WhoIsHere, (here: WhoIsHere) => void] => {
  const store = useBoardStore();
  const names = useNames();
  const act = useActTogether();
  const said = useRehearsal(day);
  const aways = useAways();
  const people = usePeople();
  const rehearsal = useMemo(
    () => withAways({ aways, people }, said ?? eveningOn({ rehearsals: [] }, day)),
    [aways, people, said, day],
  );
  const [{ today }] = useViewpoint();
  const now = day === today ? store.now() : null;
  const here = presentAt(rehearsal, now);
  const change = (next: WhoIsHere): void => {
    const moment = now !== null && isPlaying(rehearsal) ? store.now() : null;
    const { say, sit } = presenceChange(here, next, rehearsal.attendance, moment);
    act(
      [
        ...say.map((said) => step(sayWhoIsHere, { day, ...said })),
        ...sit.map((seat) => step(standIn, { day, ...seat })),
      ],
      changeWords({ say, sit }, names, moment !== null),
    );
  };
  return [here, change];
};

const changeWords = (
  { say, sit }: PresenceChange,
  names: ReturnType<typeof useNames>,
  playing: boolean,
): string => {
  const one = ({ person, here, to }: PresenceChange["say"][number]): string => {
    if (here && to === null) return `${names.member(person)} is here`;
    return `${names.member(person)} ${playing ? "has left" : "is not here"}`;
  };
  const seats = sit.map(({ chair, member }) =>
    member === "" ? `nobody on ${names.chair(chair)}` : `${names.member(member)} on ${names.chair(chair)}`,
  );
  return listed([...say.map(one), ...seats]);
};
