import { useCallback, useEffect, useState } from "react";
import { type AccessProblem, useBandAccess } from "#client/store/band-access.ts";
import { useAuthor, useBand, useBoardId, useBoardStore } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { useToast } from "#client/ui/toast.tsx";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import type { Result } from "#shared/lib/result.ts";
import type { Link } from "#shared/protocol/api.ts";
import { linkState } from "#shared/selectors/link-words.ts";
import { NewLinkForm } from "./new-link.tsx";

const KIND = {
  leader: "Leading link",
  member: "Joining link",
  guest: "Viewing link",
  dep: "Link for a dep",
} as const;

const LinkRow = ({ link, onRevoke }: { readonly link: Link; readonly onRevoke: () => void }) => {
  const { now } = useBoardStore();
  const { timeZone } = useBand();
  const state = linkState(link, now());
  const on = (moment: number): string => dayWords(dayOf(moment, timeZone));
  const end =
    state === "withdrawn" ? "withdrawn"
    : link.expiresAt === null ? "no end"
    : `${state === "expired" ? "expired on" : "until"} ${on(link.expiresAt)}`; // biome-ignore format: one decision
  const name = link.label === "" ? KIND[link.role] : `${KIND[link.role]}, ${link.label}`;
  return (
    <ListRow
      note={`made on ${on(link.createdAt)} · ${end}`}
      trail={
        state === "open" ? (
          <Button tone="quiet" aria-label={`Withdraw: ${name}`} onClick={onRevoke}>
            Withdraw
          </Button>
        ) : null
      }
    >
      {name}
    </ListRow>
  );
};

const ConfirmRevoke = (props: { readonly onRevoke: () => void; readonly onClose: () => void }) => (
  <Dialog
    open
    onClose={props.onClose}
    title="Withdraw this link?"
    actions={
      <>
        <Button tone="danger" onClick={props.onRevoke}>
          Withdraw it
        </Button>
        <Button data-first-focus onClick={props.onClose}>
          Leave it
        </Button>
      </>
    }
  >
    Nobody can come in by it any more. Devices that already came in stay; this cannot be undone, but you can
    make another link.
  </Dialog>
);

/** Makes links into the board, lists them and withdraws them. For leaders; others are told whom to ask. */
export const ShareLinks = () => {
  const access = useBandAccess();
  const board = useBoardId();
  const toast = useToast();
  const leads = useAuthor().role === "leader";
  const [links, setLinks] = useState<Result<readonly Link[], AccessProblem> | null>(null);
  const [revoking, setRevoking] = useState<Link | null>(null);
  const load = useCallback(async () => setLinks(await access.links(board)), [access, board]);
  useEffect(() => {
    if (leads) void load();
  }, [leads, load]);
  if (!leads) return <p className="text-quiet">The band’s leader makes the links into this board.</p>;
  const revoke = async () => {
    if (revoking === null) return;
    const answer = await access.revokeLink(board, revoking.id);
    setRevoking(null);
    toast({ text: answer.ok ? "The link is withdrawn." : answer.error.message });
    await load();
  };
  return (
    <>
      <NewLinkForm onMade={() => void load()} />
      {links === null ? null : links.ok ? (
        links.value.length === 0 ? null : (
          <Accordion className="mt-6 border-t" summary={`Links made so far: ${links.value.length}`}>
            <ul className="pb-4 pl-6">
              {[...links.value].reverse().map((link) => (
                <LinkRow key={link.id} link={link} onRevoke={() => setRevoking(link)} />
              ))}
            </ul>
          </Accordion>
        )
      ) : (
        <div className="mt-6">
          <ErrorNote
            title={links.error.message}
            action={<Button onClick={() => void load()}>Try again</Button>}
          />
        </div>
      )}
      {revoking === null ? null : (
        <ConfirmRevoke onRevoke={() => void revoke()} onClose={() => setRevoking(null)} />
      )}
    </>
  );
};
