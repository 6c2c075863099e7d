import { useState } from "react";
import { useBandAccess } from "#client/store/band-access.ts";
import { useBand } from "#client/store/hooks.ts";
import { Choice } from "#client/ui/choice.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { QrCode } from "#client/ui/qr-code.tsx";
import type { NewLink } from "#shared/protocol/api.ts";
import { joiningAddress } from "#shared/protocol/joining-address.ts";
import { onlyHere } from "#shared/selectors/link-words.ts";
import { CopyText } from "./copy-text.tsx";

type Page = "message" | "link" | "code";

export interface MadeLinkProps {
  readonly link: NewLink;
  /** What the link is good for, beside that it is shown this once. */
  readonly said?: string;
  /** The message it travels in, by its address; without it there is nobody to write to. */
  readonly message?: (address: string) => string;
  readonly first?: Page;
}

const WAYS: readonly { readonly value: Page; readonly label: string }[] = [
  { value: "message", label: "As a message" },
  { value: "link", label: "The link alone" },
  { value: "code", label: "As a code to scan" },
];

/** A link that was just made, shown this once: as a message, as its address, as a code to scan. */
export const MadeLink = ({ link, said = "", message, first = "message" }: MadeLinkProps) => {
  const access = useBandAccess();
  const { name } = useBand();
  const address = joiningAddress(access.origin, link);
  const [page, setPage] = useState(first);
  return (
    <div className="mt-4 flex max-w-xl flex-col gap-4 border-l-4 border-l-ink pl-4">
      <p className="font-semibold">
        The link is ready. It is shown this once: pass it on now.
        {said ? <span className="block font-normal text-quiet">{said}</span> : null}
      </p>
      {onlyHere(access.origin) ? (
        <ErrorNote title="This address works on this device only.">
          Open Tightrow by the address that was printed when it started, then make the link again.
        </ErrorNote>
      ) : null}
      <Choice
        label="How to pass it on"
        hideLabel
        value={page}
        options={WAYS.filter(({ value }) => value !== "message" || message !== undefined)}
        onChange={setPage}
      />
      {page === "message" && message !== undefined ? (
        <CopyText key="message" label="A message, ready to paste" text={message(address)} />
      ) : null}
      {page === "link" ? <CopyText key="link" label="The link" text={address} /> : null}
      {page === "code" ? <QrCode text={address} label={`Opens the link into ${name}`} /> : null}
    </div>
  );
};
