import Plus from "lucide-react/icons/plus";
import X from "lucide-react/icons/x";
import { useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { useAuthor, useAways, useBoardStore, usePeople, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { IconButton } from "#client/ui/icon-button.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import type { Away } from "#shared/board/rehearsal.ts";
import { withdrawAway } from "#shared/commands/say-who-is-here.ts";
import { awayDays, awaysAhead } from "#shared/selectors/away-days.ts";
import { AwayForm } from "./away-form.tsx";
import { type Reasons, useReasons } from "./use-reasons.ts";

const ReasonNotKept = ({ reasons }: { readonly reasons: Reasons }) => {
  const { unsent, keep, drop } = reasons;
  if (unsent === null) return null;
  const reason = unsent.reason === "" ? "It should have been taken away." : `You wrote: ${unsent.reason}`;
  return (
    <div className="mt-3">
      <ErrorNote
        title="The days are written down, your reason is not"
        action={
          <div className="flex flex-wrap gap-3">
            <Button onClick={() => void keep(unsent.away, unsent.reason)}>Try again</Button>
            <Button tone="quiet" onClick={drop}>
              Leave it
            </Button>
          </div>
        }
      >
        {unsent.problem} {reason}
      </ErrorNote>
    </div>
  );
};

const AwayRow = ({ away, reasons }: { readonly away: Away; readonly reasons: Reasons | null }) => {
  const act = useAct();
  const people = usePeople();
  const { member, role } = useAuthor();
  const [{ today }] = useViewpoint();
  const name = people.get(away.person)?.name ?? "somebody";
  const days = awayDays(away, today);
  const own = away.person === member;
  const reason = own ? (reasons?.of(away.id) ?? "") : "";
  const withdraw = () => {
    if (!act(withdrawAway, { away: away.id }, `${name} is not away: ${days}`)) return;
    if (reason !== "") void reasons?.keep(away.id, "");
  };
  const note = [days, reason === "" ? "" : `${reason} (only you see why)`].filter((part) => part !== "");
  return (
    <ListRow
      note={note.join(" · ")}
      trail={
        own || role === "leader" ? (
          <IconButton icon={X} label={`${name} can come after all: ${days}`} onClick={withdraw} />
        ) : null
      }
    >
      {own ? `${name} (you)` : name}
    </ListRow>
  );
};

interface AwayListProps {
  /** Null for who may keep nothing to themselves here. */
  readonly reasons: Reasons | null;
}

const AwayList = ({ reasons }: AwayListProps) => {
  const people = usePeople();
  const [{ today }] = useViewpoint();
  const ahead = awaysAhead(useAways(), today).filter(({ person }) => people.has(person));
  return (
    <>
      <SectionHeading title={<span id="away">Away</span>} aside={ahead.length} />
      {ahead.length === 0 ? (
        <p className="pb-3 text-quiet">
          Nobody says they are away. Say it early: rehearsals and gigs then show which chair is empty.
        </p>
      ) : (
        <ul>
          {ahead.map((away) => (
            <AwayRow key={away.id} away={away} reasons={reasons} />
          ))}
        </ul>
      )}
    </>
  );
};

const MyAway = () => {
  const store = useBoardStore();
  const reasons = useReasons();
  const [saying, setSaying] = useState(false);
  return (
    <>
      <AwayList reasons={reasons} />
      <ReasonNotKept reasons={reasons} />
      {store.board().people.size === 0 ? null : (
        <Button icon={Plus} className="mt-4" onClick={() => setSaying(true)}>
          Say days away
        </Button>
      )}
      {saying ? (
        <AwayForm
          onClose={() => setSaying(false)}
          onSaid={(away, reason) => {
            if (reason !== "") void reasons.keep(away, reason);
          }}
        />
      ) : null}
    </>
  );
};

/** When who cannot come. One's own reason is shown to oneself only. */
export const AwaySection = () => {
  const { role, member } = useAuthor();
  return (
    <section aria-labelledby="away">
      {role === "leader" || (role === "member" && member !== null) ? <MyAway /> : <AwayList reasons={null} />}
    </section>
  );
};
