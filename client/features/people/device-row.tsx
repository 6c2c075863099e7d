import Ellipsis from "lucide-react/icons/ellipsis";
import { useBand, useBoardStore } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { Menu, type MenuItem } from "#client/ui/menu.tsx";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import type { DeviceInfo, Link, Role } from "#shared/protocol/api.ts";
import { cameIn, deviceName, lastHere, ROLE_DOES } from "#shared/selectors/device-words.ts";

/** What can be done with a device. */
export type DeviceAct = "rename" | "confirm" | "remove" | Role;

export interface DeviceRowProps {
  readonly device: DeviceInfo;
  /** Whose it is, for the names of its controls. */
  readonly whose: string;
  /** The links there are, where one may know them. */
  readonly links: readonly Link[];
  readonly leads: boolean;
  /** Absent = only to be read. */
  readonly onAct?: ((act: DeviceAct) => void) | undefined;
}

const ROLE_ACTS: readonly { readonly role: Role; readonly label: string }[] = [
  { role: "leader", label: "Let it lead" },
  { role: "member", label: "Let it play, not lead" },
  { role: "guest", label: "Let it only look on" },
];

const actsOf = (device: DeviceInfo, leads: boolean, onAct: (act: DeviceAct) => void): readonly MenuItem[] => [
  { label: "Rename it", onSelect: () => onAct("rename") },
  ...(leads && device.role !== "dep"
    ? ROLE_ACTS.filter(({ role }) => role !== device.role).map(({ role, label }) => ({
        label,
        onSelect: () => onAct(role),
      }))
    : []),
  ...(device.own ? [] : [{ label: "Remove it", danger: true, onSelect: () => onAct("remove") }]),
];

/** One device: what it does, when it was last here, how it came in, and what can be done about it. */
export const DeviceRow = ({ device, whose, links, leads, onAct }: DeviceRowProps) => {
  const { now } = useBoardStore();
  const { timeZone } = useBand();
  const name = deviceName(device);
  const facts = [
    device.own ? "this device" : "",
    ROLE_DOES[device.role],
    device.own ? "" : lastHere(device, now(), timeZone),
    cameIn(device, links, now(), timeZone),
    device.expiresAt === null ? "" : `its time ends on ${dayWords(dayOf(device.expiresAt, timeZone))}`,
  ];
  const unconfirmed = device.memberId !== null && !device.confirmed;
  return (
    <ListRow
      note={
        <>
          {facts.filter((fact) => fact !== "").join(" · ")}
          {unconfirmed ? (
            <span className="block text-accent">Not confirmed: only a name was picked on it.</span>
          ) : null}
          {unconfirmed && !device.own && onAct !== undefined ? (
            <Button
              tone="quiet"
              className="text-base"
              aria-label={`Confirm it: ${name}, ${whose}`}
              onClick={() => onAct("confirm")}
            >
              Confirm it
            </Button>
          ) : null}
        </>
      }
      trail={
        onAct === undefined ? null : (
          <Menu
            label={`More about ${name}, ${whose}${device.own ? ", this device" : ""}`}
            trigger={<Ellipsis aria-hidden="true" size={20} strokeWidth={1.75} />}
            className="justify-center text-quiet hover:text-ink"
            items={actsOf(device, leads, onAct)}
          />
        )
      }
    >
      {name}
    </ListRow>
  );
};
