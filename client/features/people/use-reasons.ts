import { useCallback, useState } from "react";
import { useAsked } from "#client/pieces/use-asked.ts";
import { useBandAccess, useKnownBands } from "#client/store/band-access.ts";
import { useAuthor, useBoardId } from "#client/store/hooks.ts";
import { ok } from "#shared/lib/result.ts";
import { reasonKey, reasonsIn } from "#shared/selectors/away-days.ts";

/** A reason that is not on the server yet, and why. */
export interface UnsentReason {
  readonly away: string;
  readonly reason: string;
  readonly problem: string;
}

export interface Reasons {
  /** One's own reason for days away; empty where there is none, or where it cannot be asked for now. */
  readonly of: (away: string) => string;
  /** The last one that did not get through; null = none. */
  readonly unsent: UnsentReason | null;
  /** Keeps a reason on the server; an empty one takes it away. */
  readonly keep: (away: string, reason: string) => Promise<void>;
  /** Lets go of a reason that did not get through. */
  readonly drop: () => void;
}

/** Why one is away: private to one's own confirmed devices, and never on the board. */
export const useReasons = (): Reasons => {
  const access = useBandAccess();
  const board = useBoardId();
  const { member, role } = useAuthor();
  const band = useKnownBands().find((known) => known.board === board);
  // Of anybody but a member on a device that is vouched for, the server keeps nothing and would refuse.
  const confirmed = band?.confirmed === true && member !== null && role !== "guest";
  const asked = useAsked(
    useCallback(async () => (confirmed ? access.privateValues(board) : ok([])), [access, board, confirmed]),
  );
  const [unsent, setUnsent] = useState<UnsentReason | null>(null);
  const known = asked.answer?.ok ? reasonsIn(asked.answer.value) : new Map<string, string>();
  return {
    of: (away) => known.get(reasonKey(away)) ?? "",
    unsent,
    keep: async (away, reason) => {
      const kept = await access.setPrivate(board, reasonKey(away), reason === "" ? null : reason);
      setUnsent(kept.ok ? null : { away, reason, problem: kept.error.message });
      if (kept.ok) await asked.again();
    },
    drop: () => setUnsent(null),
  };
};
