import { type FormEvent, useId, useState } from "react";
import { Confirm } from "#client/pieces/confirm.tsx";
import type { AccessProblem } from "#client/store/band-access.ts";
import { Button } from "#client/ui/button.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { Result } from "#shared/lib/result.ts";
import type { DeviceInfo, Role } from "#shared/protocol/api.ts";
import { deviceName } from "#shared/selectors/device-words.ts";

type Answer = Promise<Result<unknown, AccessProblem>>;

export interface QuestionProps {
  readonly device: DeviceInfo;
  /** Whose it is. */
  readonly whose: string;
  readonly onClose: () => void;
}

/** A device's name, as the lists show it. */
export const RenameDevice = ({
  device,
  onName,
  onClose,
}: QuestionProps & { readonly onName: (name: string) => Answer }) => {
  const form = useId();
  const [name, setName] = useState(device.name);
  const [problem, setProblem] = useState("");
  const save = async (event: FormEvent) => {
    event.preventDefault();
    if (name.trim() === "")
      return setProblem("Give it a name you will know it by, such as Rehearsal tablet.");
    const answer = await onName(name.trim());
    if (!answer.ok) setProblem(answer.error.message);
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title={`Rename ${deviceName(device)}`}
      actions={
        <>
          <Button tone="main" type="submit" form={form}>
            Save
          </Button>
          <Button tone="quiet" onClick={onClose}>
            Leave it
          </Button>
        </>
      }
    >
      <form id={form} onSubmit={(event) => void save(event)}>
        <TextField
          label="Name of the device"
          value={name}
          maxLength={80}
          onChange={(text) => {
            setName(text);
            setProblem("");
          }}
          error={problem || undefined}
          data-first-focus
        />
      </form>
    </Dialog>
  );
};

/** Before a device is cut off. */
export const RemoveDevice = ({
  device,
  whose,
  onYes,
  onClose,
}: QuestionProps & { readonly onYes: () => Answer }) => (
  <Confirm title={`Remove ${deviceName(device)}?`} yes="Remove it" onYes={onYes} onClose={onClose}>
    <p>
      {device.memberId === null ? "Nobody has said whose it is." : `It is with ${whose}.`} It is cut off at
      once.
    </p>
    <p>
      What it had not sent stays on it, and is sent if it is let in again by a new link. The copy of the board
      it holds can still be read there.
    </p>
  </Confirm>
);

const ROLE_QUESTION: Record<Role, { readonly yes: string; readonly what: string }> = {
  leader: {
    yes: "Let it lead",
    what: "It then makes and withdraws links, removes devices, lets gates pass and changes the band's numbers, like you.",
  },
  member: {
    yes: "Let it play, not lead",
    what: "It then marks details, logs takes and changes songs, but makes no links and removes no devices.",
  },
  guest: {
    yes: "Let it only look on",
    what: "It then sees the whole board and changes nothing. What it had not sent stays on it.",
  },
  dep: { yes: "Let it sit in", what: "" },
};

/** Before a device may do more or less than it did. */
export const ChangeRole = ({
  device,
  role,
  onYes,
  onClose,
}: QuestionProps & { readonly role: Role; readonly onYes: () => Answer }) => {
  const { yes, what } = ROLE_QUESTION[role];
  return (
    <Confirm
      title={`${deviceName(device)}: ${yes.toLowerCase()}?`}
      yes={yes}
      danger={role !== "leader"}
      onYes={onYes}
      onClose={onClose}
    >
      <p>{what}</p>
      {device.own ? (
        <p className="font-semibold">It is the device in your hand: you stop leading here.</p>
      ) : null}
    </Confirm>
  );
};
