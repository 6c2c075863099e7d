import { useState } from "react";
import { MadeLink } from "#client/pieces/made-link.tsx";
import { useBandAccess } from "#client/store/band-access.ts";
import { useBand, useBoardId, useBoardStore } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import type { Gig, Person } from "#shared/board/band.ts";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import type { NewLink } from "#shared/protocol/api.ts";
import { depLinkFor } from "#shared/selectors/dep-link.ts";
import { linkMessage } from "#shared/selectors/link-words.ts";

/** Makes the dep's own link to this gig and shows it once, as a code to scan and as text. */
export const DepLink = ({ gig, dep }: { readonly gig: Gig; readonly dep: Person }) => {
  const access = useBandAccess();
  const board = useBoardId();
  const { name, timeZone } = useBand();
  const { now } = useBoardStore();
  const [made, setMade] = useState<{ readonly link: NewLink; readonly lastDay: string } | null>(null);
  const [problem, setProblem] = useState("");
  const [busy, setBusy] = useState(false);
  const wanted = depLinkFor(gig, dep, timeZone, now());
  if (wanted === null) return null;
  const make = async () => {
    setBusy(true);
    const answer = await access.createLink(board, wanted);
    setBusy(false);
    setProblem(answer.ok ? "" : answer.error.message);
    if (answer.ok) setMade({ link: answer.value, lastDay: dayOf(wanted.expiresAt, timeZone) });
  };
  return (
    <div className="no-print w-full pt-1">
      <Button disabled={busy} onClick={() => void make()}>
        Link for {dep.name}
      </Button>
      {problem === "" ? null : (
        <div className="mt-3">
          <ErrorNote title={problem} />
        </div>
      )}
      {made === null ? null : (
        <MadeLink
          key={made.link.id}
          link={made.link}
          first="code"
          said={`It shows ${dep.name} this gig and nothing else of the board, until ${dayWords(made.lastDay)}.`}
          message={(address) =>
            linkMessage({ name, role: "dep", address, lastDay: made.lastDay, person: dep.name })
          }
        />
      )}
    </div>
  );
};
