import { useCallback, useState } from "react";
import { Confirm } from "#client/pieces/confirm.tsx";
import { useAsked } from "#client/pieces/use-asked.ts";
import { useBandAccess } from "#client/store/band-access.ts";
import { useBoardId, usePeople } from "#client/store/hooks.ts";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { useToast } from "#client/ui/toast.tsx";
import type { DeviceInfo, Link } from "#shared/protocol/api.ts";
import { deviceName } from "#shared/selectors/device-words.ts";

export interface WithdrawLinkProps {
  readonly link: Link;
  readonly onDone: () => void;
  readonly onClose: () => void;
}

const devicesWord = (count: number): string => (count === 1 ? "1 device" : `${count} devices`);

/** Withdraws a link for good, and the devices that came in by it if the leader says so. */
export const WithdrawLink = ({ link, onDone, onClose }: WithdrawLinkProps) => {
  const access = useBandAccess();
  const board = useBoardId();
  const people = usePeople();
  const toast = useToast();
  const { answer } = useAsked(useCallback(() => access.devices(board), [access, board]));
  const [too, setToo] = useState(false);
  const came = answer?.ok ? answer.value.filter((device) => device.link === link.id) : [];
  // Nobody shall lock themselves out by a tick in a box.
  const ownToo = came.some(({ own }) => own);
  const named = ({ memberId, name }: DeviceInfo): string => {
    const whose = people.get(memberId ?? "")?.name;
    return whose === undefined ? deviceName({ name }) : `${whose} (${deviceName({ name })})`;
  };
  const withdraw = async () => {
    const revoked = await access.revokeLink(board, link.id, too);
    if (!revoked.ok) return revoked;
    const devices = too
      ? `, and ${devicesWord(came.length)} ${came.length === 1 ? "is" : "are"} removed`
      : "";
    toast({ text: `The link is withdrawn${devices}.` });
    onDone();
    return revoked;
  };
  return (
    <Confirm title="Withdraw this link?" yes="Withdraw it" onYes={withdraw} onClose={onClose}>
      <p>Nobody can come in by it any more. This cannot be undone, but you can make another link.</p>
      {answer === null ? <p className="text-quiet">Asking which devices came in by it.</p> : null}
      {answer?.ok === false ? (
        <p className="text-quiet">Which devices came in by it cannot be said at the moment; they stay.</p>
      ) : null}
      {answer?.ok && came.length === 0 ? <p className="text-quiet">No device came in by it.</p> : null}
      {came.length > 0 && ownToo ? (
        <p className="text-quiet">
          {devicesWord(came.length)} came in by it, this one too; they stay. Remove single ones under Devices.
        </p>
      ) : null}
      {came.length > 0 && !ownToo ? (
        <>
          <Checkbox
            label={`Also remove the ${devicesWord(came.length)} that came in by it`}
            hint={came.map(named).join(" · ")}
            checked={too}
            onChange={setToo}
          />
          <p className="text-quiet">
            {too
              ? "They are cut off at once. What they had not sent stays on them."
              : "They stay on the board unless you tick this."}
          </p>
        </>
      ) : null}
    </Confirm>
  );
};
