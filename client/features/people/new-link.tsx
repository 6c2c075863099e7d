import { useState } from "react";
import { CopyText } from "#client/pieces/copy-text.tsx";
import { useBandAccess } from "#client/store/band-access.ts";
import { useBand, useBoardId, useBoardStore } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Choice } from "#client/ui/choice.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { QrCode } from "#client/ui/qr-code.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { dayOf } from "#shared/lib/calendar.ts";
import type { NewLink, Role } from "#shared/protocol/api.ts";
import { joiningAddress } from "#shared/protocol/joining-address.ts";
import { LINK_ENDS, type LinkEnd, linkMessage, linkRights, onlyHere } from "#shared/selectors/link-words.ts";

const ROLE_OPTIONS: readonly { readonly value: Role; readonly label: string }[] = [
  { value: "member", label: "Joining" },
  { value: "guest", label: "Viewing" },
  { value: "leader", label: "Leading" },
];

interface Made {
  readonly link: NewLink;
  readonly expires: number | null;
}

const MadeLink = ({ made }: { readonly made: Made }) => {
  const access = useBandAccess();
  const { name, timeZone } = useBand();
  const { link, expires } = made;
  const address = joiningAddress(access.origin, link);
  const lastDay = expires === null ? null : dayOf(expires, timeZone);
  const [page, setPage] = useState("message");
  return (
    <div className="mt-4 flex flex-col gap-4 border-l-4 border-l-ink pl-4">
      <p className="font-semibold">The link is ready. It is shown this once: pass it on now.</p>
      {onlyHere(access.origin) ? (
        <ErrorNote title="This address works on this device only.">
          Open Tightrow by the address that was printed when it started, then make the link again.
        </ErrorNote>
      ) : null}
      <Choice
        label="How to pass it on"
        hideLabel
        value={page}
        options={[
          { value: "message", label: "As a message" },
          { value: "link", label: "The link alone" },
          { value: "code", label: "As a code to scan" },
        ]}
        onChange={setPage}
      />
      {page === "message" ? (
        <CopyText
          key="message"
          label="A message, ready to paste"
          text={linkMessage({ name, role: link.role, address, lastDay })}
        />
      ) : null}
      {page === "link" ? <CopyText key="link" label="The link" text={address} /> : null}
      {page === "code" ? <QrCode text={address} label={`Opens the link into ${name}`} /> : null}
    </div>
  );
};

export interface NewLinkFormProps {
  /** Called after a link was made. */
  readonly onMade: () => void;
}

/** Makes a link into the board and shows it once. */
export const NewLinkForm = ({ onMade }: NewLinkFormProps) => {
  const access = useBandAccess();
  const board = useBoardId();
  const { now } = useBoardStore();
  const [role, setRole] = useState<Role>("member");
  const [end, setEnd] = useState<LinkEnd>("month");
  const [label, setLabel] = useState("");
  const [made, setMade] = useState<Made | null>(null);
  const [problem, setProblem] = useState("");
  const make = async () => {
    const { days } = LINK_ENDS[end];
    const expires = days === null ? null : now() + days * 86_400_000;
    const answer = await access.createLink(board, {
      role,
      label: label.trim(),
      ...(expires === null ? {} : { expiresAt: expires }),
    });
    setProblem(answer.ok ? "" : answer.error.message);
    if (!answer.ok) return;
    setMade({ link: answer.value, expires });
    setLabel("");
    onMade();
  };
  return (
    <div className="max-w-xl">
      <Choice label="What kind of link" value={role} options={ROLE_OPTIONS} onChange={setRole} />
      <p className="mt-2 text-quiet">{linkRights(role)}</p>
      <div className="mt-4 flex flex-wrap items-end gap-4">
        <Select
          label="It lets people in for"
          value={end}
          options={(Object.keys(LINK_ENDS) as LinkEnd[]).map((value) => ({
            value,
            label: LINK_ENDS[value].words,
          }))}
          onChange={setEnd}
          className="w-40"
        />
        <TextField
          label="Your own note on it"
          placeholder="for the new bass player"
          value={label}
          maxLength={200}
          onChange={setLabel}
          className="min-w-40 flex-1"
        />
      </div>
      <Button tone="main" className="mt-4" onClick={() => void make()}>
        Make the link
      </Button>
      {problem ? (
        <div className="mt-3">
          <ErrorNote title={problem} />
        </div>
      ) : null}
      {made ? <MadeLink key={made.link.id} made={made} /> : null}
    </div>
  );
};
