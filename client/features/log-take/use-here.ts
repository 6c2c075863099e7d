import { useCallback, useState } from "react";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { useBoardId } from "#client/store/hooks.ts";
import { EVERYBODY, keepHere, keptHere, type WhoIsHere } from "#shared/selectors/seating.ts";

/** Who is here on one day, set once and remembered on this device. */
export const useHere = (day: string): readonly [WhoIsHere, (here: WhoIsHere) => void] => {
  const name = `here.${useBoardId()}`;
  const [kept, setKept] = useState(() => keptHere(recall(name) ?? ""));
  const change = useCallback(
    (here: WhoIsHere) => {
      const next = new Map(kept).set(day, here);
      remember(name, keepHere(next));
      setKept(next);
    },
    [kept, day, name],
  );
  return [kept.get(day) ?? EVERYBODY, change];
};
