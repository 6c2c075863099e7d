import { useCallback } from "react";
import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { usePeople } from "#client/store/hooks.ts";
import type { Present } from "#client/store/presence.ts";
import { useEverybodyPresent } from "#client/store/presence-hooks.ts";
import { initialsOf } from "#shared/selectors/initials.ts";
import { placeWords } from "./place-words.ts";

const Line = ({ present }: { readonly present: readonly Present[] }) => {
  const people = usePeople();
  const say = useCallback(
    ({ board }: BoardReading): string =>
      present
        .map((one) => {
          const name = board.people.get(one.member ?? "")?.name ?? "Somebody unnamed";
          return `${name}: ${placeWords(board, one)}`;
        })
        .join("; "),
    [present],
  );
  // As words, so that a tick elsewhere on the board does not draw this line.
  const said = useBoardSlice(say);
  const initials = present.map(({ member }) => initialsOf(people.get(member ?? "")?.name));
  return (
    <p className="caption min-w-0 max-laptop:pt-2" title={said}>
      <span aria-hidden="true">Here: {initials.join(", ")}</span>
      <span className="sr-only">Here now. {said}.</span>
    </p>
  );
};

/** Who else has the board open now; nothing while one is alone. */
export const HereLine = () => {
  const present = useEverybodyPresent();
  return present.length === 0 ? null : <Line present={present} />;
};
