import Plus from "lucide-react/icons/plus";
import { useState } from "react";
import { MadeLink } from "#client/pieces/made-link.tsx";
import { useBandAccess } from "#client/store/band-access.ts";
import { useBoardId, useBoardStore, usePeople } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import type { NewLink } from "#shared/protocol/api.ts";

const DAY_MS = 86_400_000;

/** A way in for another device of the same person: one use, a day. */
export const AddOwnDevice = ({
  member,
  onMade,
}: {
  readonly member: string;
  readonly onMade: () => void;
}) => {
  const access = useBandAccess();
  const board = useBoardId();
  const { now } = useBoardStore();
  const me = usePeople().get(member);
  const [made, setMade] = useState<NewLink | null>(null);
  const [problem, setProblem] = useState("");
  const [busy, setBusy] = useState(false);
  const make = async () => {
    setBusy(true);
    const answer = await access.createLink(board, {
      role: "member",
      memberId: member,
      maxUses: 1,
      expiresAt: now() + DAY_MS,
      label: me === undefined ? "" : `another device of ${me.name}`,
    });
    setBusy(false);
    setProblem(answer.ok ? "" : answer.error.message);
    if (!answer.ok) return;
    setMade(answer.value);
    onMade();
  };
  return (
    <div className="mt-4">
      <Button icon={Plus} disabled={busy} onClick={() => void make()}>
        Add another device of mine
      </Button>
      {problem ? (
        <div className="mt-3">
          <ErrorNote title={problem} />
        </div>
      ) : null}
      {made === null ? null : (
        <MadeLink
          key={made.id}
          link={made}
          first="code"
          said="Open it on your other device within a day. It works once, and nobody has to pick a name."
        />
      )}
    </div>
  );
};
