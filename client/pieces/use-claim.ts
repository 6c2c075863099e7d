import { useCallback } from "react";
import { useBandAccess } from "#client/store/band-access.ts";
import { useBoardId, useBoardStore } from "#client/store/hooks.ts";
import { ok, type Result } from "#shared/lib/result.ts";

/** Says whose device this is: to the server first, then to the screens. A refusal comes back as a sentence. */
export const useClaim = (): ((member: string) => Promise<Result<null>>) => {
  const access = useBandAccess();
  const board = useBoardId();
  const { identity } = useBoardStore();
  return useCallback(
    async (member) => {
      const answer = await access.claimMember(board, member);
      if (!answer.ok) return { ok: false, error: answer.error.message };
      identity.become(member);
      return ok(null);
    },
    [access, board, identity],
  );
};
