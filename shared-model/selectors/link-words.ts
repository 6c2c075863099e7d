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
}

/** A message to paste into whatever the band talks by. */
export const linkMessage = ({ name, role, address, lastDay }: LinkInvitation): string => {
  const what =
    role === "guest"
      ? `Have a look at the rehearsal board of ${name}:`
      : `Here is your way into the rehearsal board of ${name}:`;
  const how =
    role === "guest"
      ? "It opens in the browser, without an account."
      : "Open it on your phone, pick your name, and mark what you have practised. It works in the browser, without an account.";
  const end = lastDay === null ? "" : ` The link works until ${dayWords(lastDay)}.`;
  return `${what}\n${address}\n${how}${end}`;
};

/** How a link stands at a moment (ms). */
export const linkState = (
  { revokedAt, expiresAt }: Pick<Link, "revokedAt" | "expiresAt">,
  now: number,
): "open" | "expired" | "withdrawn" => {
  if (revokedAt !== null) return "withdrawn";
  return expiresAt !== null && expiresAt <= now ? "expired" : "open";
};

/** True when an origin names the very device it is opened on, so that no other can use it. */
export const onlyHere = (origin: string): boolean =>
  /^https?:\/\/(localhost|127(\.\d+){3}|\[::1\])(:\d+)?$/.test(origin);
