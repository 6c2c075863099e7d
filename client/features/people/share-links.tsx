import { useCallback, useState } from "react";
import { AskedView } from "#client/pieces/asked-view.tsx";
import { useAsked } from "#client/pieces/use-asked.ts";
import { useBandAccess } from "#client/store/band-access.ts";
import { useAuthor, useBand, useBoardId, useBoardStore, useGigs, usePeople } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import type { Link } from "#shared/protocol/api.ts";
import { linkName } from "#shared/selectors/device-words.ts";
import { linkState, linkUses } from "#shared/selectors/link-words.ts";
import { NewLinkForm } from "./new-link.tsx";
import { WithdrawLink } from "./withdraw-link.tsx";

const LinkRow = ({ link, onRevoke }: { readonly link: Link; readonly onRevoke: () => void }) => {
  const { now } = useBoardStore();
  const { timeZone } = useBand();
  const people = usePeople();
  const gigs = useGigs();
  const state = linkState(link, now());
  const on = (moment: number): string => dayWords(dayOf(moment, timeZone));
  const end =
    state === "withdrawn" ? "withdrawn"
    : state === "used up" ? "used up"
    : link.expiresAt === null ? "open, no end"
    : `${state === "expired" ? "expired on" : "open until"} ${on(link.expiresAt)}`; // biome-ignore format: one decision
  const name = linkName(link);
  const person = link.memberId === null ? null : people.get(link.memberId);
  const gig = gigs.find(({ id }) => id === link.gig);
  const notes = [
    person ? `only ${person.name}` : "",
    gig?.name ?? "",
    end,
    linkUses(link),
    `made on ${on(link.createdAt)}`,
  ];
  return (
    <ListRow
      note={notes.filter((note) => note !== "").join(" · ")}
      trail={
        state === "open" ? (
          <Button tone="quiet" aria-label={`Withdraw: ${name}`} onClick={onRevoke}>
            Withdraw
          </Button>
        ) : null
      }
    >
      <span className={state === "open" ? "" : "text-quiet"}>{name}</span>
    </ListRow>
  );
};

const ForLeaders = () => {
  const access = useBandAccess();
  const board = useBoardId();
  const asked = useAsked(useCallback(() => access.links(board), [access, board]));
  const [revoking, setRevoking] = useState<Link | null>(null);
  const revoked = () => {
    setRevoking(null);
    void asked.again();
  };
  return (
    <>
      <NewLinkForm onMade={() => void asked.again()} />
      <div className="mt-6">
        <AskedView asked={asked}>
          {(links) =>
            links.length === 0 ? (
              <p className="caption">No links made yet.</p>
            ) : (
              <Accordion className="border-t" summary={`Links made so far: ${links.length}`}>
                <ul className="pb-4 pl-6">
                  {[...links].reverse().map((link) => (
                    <LinkRow key={link.id} link={link} onRevoke={() => setRevoking(link)} />
                  ))}
                </ul>
              </Accordion>
            )
          }
        </AskedView>
      </div>
      {revoking === null ? null : (
        <WithdrawLink link={revoking} onDone={revoked} onClose={() => setRevoking(null)} />
      )}
    </>
  );
};

/** Makes links into the board, lists them and withdraws them. For leaders; others are told whom to ask. */
export const ShareLinks = () => {
  const leads = useAuthor().role === "leader";
  if (leads) return <ForLeaders />;
  return <p className="text-quiet">The band’s leader makes the links into this board.</p>;
};
