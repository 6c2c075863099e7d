import { useState } from "react";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { useViewpoint } from "#client/store/hooks.ts";
import type { Stretch } from "#shared/music/loudness.ts";
import { keepStretches, readStretches } from "#shared/selectors/sound-evening.ts";

const NAME = "sound-today";

/** Today's stretches on this device, and how to change them. Tomorrow there are none. */
export const useStretches = (): readonly [readonly Stretch[], (stretches: readonly Stretch[]) => void] => {
  const [{ today }] = useViewpoint();
  const [text, setText] = useState(() => recall(NAME));
  return [
    readStretches(text, today),
    (stretches) => {
      const kept = keepStretches(stretches, today);
      remember(NAME, kept);
      setText(kept);
    },
  ];
};
