import { useState } from "react";
import { MadeLink } from "#client/pieces/made-link.tsx";
import { useBandAccess } from "#client/store/band-access.ts";
import { useBand, useBoardId, useBoardStore, usePeople } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Choice } from "#client/ui/choice.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { dayOf } from "#shared/lib/calendar.ts";
import type { NewLink, Role } from "#shared/protocol/api.ts";
import { LINK_ENDS, type LinkEnd, linkMessage, linkRights } from "#shared/selectors/link-words.ts";

const ROLE_OPTIONS: readonly { readonly value: Role; readonly label: string }[] = [
  { value: "member", label: "Joining" },
  { value: "guest", label: "Viewing" },
  { value: "leader", label: "Leading" },
];

const END_OPTIONS = (Object.keys(LINK_ENDS) as LinkEnd[]).map((value) => ({
  value,
  label: LINK_ENDS[value].words,
}));

const ANY = "any";
const USE_OPTIONS = [
  { value: ANY, label: "any number of devices" },
  { value: "1", label: "one device" },
  ...["2", "3", "4", "5", "6", "8", "10", "20"].map((value) => ({ value, label: `${value} devices` })),
];

interface Made {
  readonly link: NewLink;
  readonly expires: number | null;
  readonly person: string | null;
}

export interface NewLinkFormProps {
  /** Called after a link was made. */
  readonly onMade: () => void;
}

const useLinkDraft = () => {
  const [role, setRole] = useState<Role>("member");
  const [end, setEnd] = useState<LinkEnd>("month");
  const [uses, setUses] = useState(ANY);
  const [person, setPerson] = useState("");
  const [label, setLabel] = useState("");
  return { role, setRole, end, setEnd, uses, setUses, person, setPerson, label, setLabel };
};

/** Makes a link into the board and shows it once. */
export const NewLinkForm = ({ onMade }: NewLinkFormProps) => {
  const access = useBandAccess();
  const board = useBoardId();
  const { name, timeZone } = useBand();
  const people = usePeople();
  const { now } = useBoardStore();
  const draft = useLinkDraft();
  const { role } = draft;
  const [made, setMade] = useState<Made | null>(null);
  const [problem, setProblem] = useState("");
  const [busy, setBusy] = useState(false);
  // Whoever only looks on is nobody of the band.
  const person = role === "guest" ? undefined : people.get(draft.person);
  const make = async () => {
    const { days } = LINK_ENDS[draft.end];
    const expires = days === null ? null : now() + days * 86_400_000;
    setBusy(true);
    const answer = await access.createLink(board, {
      role,
      label: draft.label.trim(),
      ...(expires === null ? {} : { expiresAt: expires }),
      ...(draft.uses === ANY ? {} : { maxUses: Number(draft.uses) }),
      ...(person === undefined ? {} : { memberId: person.id }),
    });
    setBusy(false);
    setProblem(answer.ok ? "" : answer.error.message);
    if (!answer.ok) return;
    setMade({ link: answer.value, expires, person: person?.name ?? null });
    draft.setLabel("");
    onMade();
  };
  const message = (address: string): string =>
    linkMessage({
      name,
      role: made?.link.role ?? role,
      address,
      lastDay: made === null || made.expires === null ? null : dayOf(made.expires, timeZone),
      person: made?.person ?? null,
    });
  return (
    <div className="max-w-xl">
      <Choice label="What kind of link" value={role} options={ROLE_OPTIONS} onChange={draft.setRole} />
      <p className="mt-2 text-quiet">{linkRights(role)}</p>
      <div className="mt-4 grid gap-4 tablet:grid-cols-2">
        <Select
          label="It lets people in for"
          value={draft.end}
          options={END_OPTIONS}
          onChange={draft.setEnd}
        />
        <Select label="It lets in" value={draft.uses} options={USE_OPTIONS} onChange={draft.setUses} />
        {role === "guest" || people.size === 0 ? null : (
          <Select
            label="For whom"
            value={person?.id ?? ""}
            options={[
              { value: "", label: "whoever opens it" },
              ...[...people.values()].map(({ id, name: label }) => ({ value: id, label: `only ${label}` })),
            ]}
            onChange={draft.setPerson}
          />
        )}
        <TextField
          label="Your own note on it"
          placeholder="for the new bass player"
          value={draft.label}
          maxLength={200}
          onChange={draft.setLabel}
        />
      </div>
      {person === undefined ? null : (
        <p className="caption mt-2">
          Whoever opens it is {person.name} and picks no name. Give it to {person.name} alone.
        </p>
      )}
      <Button tone="main" className="mt-4" disabled={busy} onClick={() => void make()}>
        Make the link
      </Button>
      {problem ? (
        <div className="mt-3">
          <ErrorNote title={problem} />
        </div>
      ) : null}
      {made ? <MadeLink key={made.link.id} link={made.link} message={message} /> : null}
    </div>
  );
};
