import { useCallback, useMemo } from "react";
import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { useBoardStore } from "#client/store/hooks.ts";
import type { Gig } from "#shared/board/band.ts";
import type { Supposed } from "#shared/selectors/what-if.ts";
import { createWhatIf, type WhatIf } from "./what-if-reading.ts";

const same = (a: WhatIf | null, b: WhatIf | null): boolean => JSON.stringify(a) === JSON.stringify(b);

/** How a gig would stand if all of this were so; null while nothing is supposed. */
export const useWhatIf = (gig: Gig, supposed: readonly Supposed[]): WhatIf | null => {
  const store = useBoardStore();
  const read = useMemo(() => createWhatIf(store), [store]);
  const select = useCallback(
    ({ board }: BoardReading): WhatIf | null => (supposed.length === 0 ? null : read(board, gig, supposed)),
    [read, gig, supposed],
  );
  return useBoardSlice(select, same);
};
