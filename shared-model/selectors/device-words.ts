/** Devices on a board in words: what each may do, when it was last there, and by which way it came in. */
import { momentWords } from "../lib/moment-words.ts";
import type { DeviceInfo, Link, Role } from "../protocol/api.ts";

/** What a device does on the board. */
export const ROLE_DOES = {
  leader: "leads",
  member: "plays",
  guest: "looks on",
  dep: "sits in",
} as const satisfies Record<Role, string>;

/** A kind of link, as lists name it. */
export const LINK_KINDS = {
  leader: "Leading link",
  member: "Joining link",
  guest: "Viewing link",
  dep: "Link for a dep",
} as const satisfies Record<Role, string>;

/** A link by its kind and its leader's note. */
export const linkName = ({ role, label }: Pick<Link, "role" | "label">): string =>
  label === "" ? LINK_KINDS[role] : `${LINK_KINDS[role]}, ${label}`;

/** A device by its name; those that came in without one are still told apart by when they came. */
export const deviceName = ({ name }: Pick<DeviceInfo, "name">): string =>
  name.trim() === "" ? "A device without a name" : name;

/** When it was last there: `here now`, `last here today at 14:05`. */
export const lastHere = (
  { here, lastSeenAt }: Pick<DeviceInfo, "here" | "lastSeenAt">,
  now: number,
  timeZone: string,
): string => {
  if (here) return "here now";
  return lastSeenAt === null ? "not here yet" : `last here ${momentWords(lastSeenAt, now, timeZone)}`;
};

/** How and when it came in: `came in on 4 March by the joining link, for the band`. `links` empty = nobody says. */
export const cameIn = (
  { createdAt, link }: Pick<DeviceInfo, "createdAt" | "link">,
  links: readonly Link[],
  now: number,
  timeZone: string,
): string => {
  const by = links.find(({ id }) => id === link);
  const when = `came in ${momentWords(createdAt, now, timeZone)}`;
  return by === undefined ? when : `${when} by: ${linkName(by)}`;
};

/** Devices of one person, or of nobody yet. */
export interface DevicesOf {
  /** Null = nobody has said whose they are; empty = people who are not on the board any more. */
  readonly member: string | null;
  readonly name: string;
  readonly devices: readonly DeviceInfo[];
}

const ANYBODY = "Nobody has picked a name on these";
const GONE = "Somebody who is not on the board any more";

/** Devices grouped by person, in the order of the people; those of nobody last. Within a person the latest first. */
export const devicesByPerson = (
  devices: readonly DeviceInfo[],
  people: ReadonlyMap<string, { readonly name: string }>,
): readonly DevicesOf[] => {
  const latest = [...devices].reverse();
  const groups: readonly DevicesOf[] = [
    ...[...people].map(([id, { name }]) => ({
      member: id,
      name,
      devices: latest.filter(({ memberId }) => memberId === id),
    })),
    {
      member: "",
      name: GONE,
      devices: latest.filter(({ memberId }) => memberId !== null && !people.has(memberId)),
    },
    { member: null, name: ANYBODY, devices: latest.filter(({ memberId }) => memberId === null) },
  ];
  return groups.filter(({ devices: own }) => own.length > 0);
};
