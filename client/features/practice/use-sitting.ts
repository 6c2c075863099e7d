import { useCallback, useState } from "react";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { useBoardId, useViewpoint } from "#client/store/hooks.ts";
import { keepSitting, keptSitting, type Sitting } from "#shared/selectors/practice-sitting.ts";

/** Today's practice of one player, remembered on this device. */
export const useSitting = (
  member: string,
): readonly [Sitting, (change: (last: Sitting) => Partial<Sitting>) => void] => {
  const [{ today }] = useViewpoint();
  const name = `practice.${useBoardId()}`;
  const read = useCallback(() => keptSitting(recall(name) ?? "", today, member), [name, today, member]);
  const [kept, setKept] = useState(read);
  const sitting = kept.day === today && kept.member === member ? kept : read();
  const change = useCallback(
    (fields: (last: Sitting) => Partial<Sitting>) =>
      setKept((last) => {
        const base = last.day === today && last.member === member ? last : read();
        const next = { ...base, ...fields(base) };
        remember(name, keepSitting(next));
        return next;
      }),
    [name, today, member, read],
  );
  return [sitting, change];
};
