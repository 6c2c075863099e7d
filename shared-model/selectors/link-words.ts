/** Links into a board, in words: what each kind allows, how long it lasts, and the message it travels in. */
import type { Day } from "../lib/calendar.ts";
import { dayWords } from "../lib/day-words.ts";
import type { Link, Role } from "../protocol/api.ts";

/** How long a link lets people in. `days` null = until it is withdrawn. */
export const LINK_ENDS = {
  day: { days: 1, words: "a day" },
  week: { days: 7, words: "a week" },
  month: { days: 30, words: "30 days" },
  never: { days: null, words: "no end" },
} as const;
export type LinkEnd = keyof typeof LINK_ENDS;

/** What somebody who comes in by such a link may do. */
export const linkRights = (role: Role): string => {
  switch (role) {
    case "leader":
      return "Whoever opens it leads like you: makes and withdraws links, lets gates pass, changes the band's numbers. For your own other devices, or for somebody who leads with you.";
    case "member":
      return "Whoever opens it picks their name, marks their details, logs takes, and may add and change songs. For everybody in the band.";
    case "guest":
      return "Whoever opens it sees the whole board and changes nothing.";
    case "dep":
      return "Whoever opens it sees one gig, with the details of the chair they sit in on, and answers: got it, or a question.";
  }
};

export interface LinkInvitation {
  /** The band's name. */
  readonly name: string;
  readonly role: Role;
  readonly address: string;
  /** Last day it lets people in; null = no end. */
  readonly lastDay: Day | null;
  /** Name of the person it is for; null = whoever opens it says who they are. */
  readonly person?: string | null;
}

/** A message to paste into whatever the band talks by. */
export const linkMessage = ({ name, role, address, lastDay, person = null }: LinkInvitation): string => {
  const end = lastDay === null ? "" : ` The link works until ${dayWords(lastDay)}.`;
  if (role === "dep")
    return `${person === null ? "Here" : `${person}, here`} is your gig with ${name}:\n${address}\nOpen it on your phone: the running order and what matters on your chair. Say “Got it”, or ask. It works in the browser, without an account.${end}`;
  const what =
    role === "guest"
      ? `Have a look at the rehearsal board of ${name}:`
      : `Here is your way into the rehearsal board of ${name}:`;
  const open =
    person === null ? "Open it on your phone, pick your name," : `For ${person}: open it on your phone`;
  const how =
    role === "guest"
      ? "It opens in the browser, without an account."
      : `${open} and mark what you have practised. It works in the browser, without an account.`;
  return `${what}\n${address}\n${how}${end}`;
};

/** How a link stands at a moment (ms). */
export const linkState = (
  { revokedAt, expiresAt, maxUses, uses }: Pick<Link, "revokedAt" | "expiresAt" | "maxUses" | "uses">,
  now: number,
): "open" | "used up" | "expired" | "withdrawn" => {
  if (revokedAt !== null) return "withdrawn";
  if (expiresAt !== null && expiresAt <= now) return "expired";
  return maxUses !== null && uses >= maxUses ? "used up" : "open";
};

/** How often a link was used: `used 2 of 5`, `used 3 times`, `not used yet`. */
export const linkUses = ({ maxUses, uses }: Pick<Link, "maxUses" | "uses">): string => {
  if (maxUses !== null && maxUses > 1) return `used ${uses} of ${maxUses}`;
  if (uses === 0) return maxUses === 1 ? "for one device, not used yet" : "not used yet";
  if (maxUses === 1) return "for one device, used";
  return uses === 1 ? "used once" : `used ${uses} times`;
};

/** True when an origin names the very device it is opened on, so that no other can use it. */
export const onlyHere = (origin: string): boolean =>
  /^https?:\/\/(localhost|127(\.\d+){3}|\[::1\])(:\d+)?$/.test(origin);
