/** What one tap on a status does, who may tap it, and why a status counts for less than its player said. */
import type { Id } from "../board/ids.ts";
import type { Level } from "../board/status.ts";
import type { Take } from "../board/take.ts";
import type { Role } from "../commands/command.ts";
import { dayOf } from "../lib/calendar.ts";
import { dayWords } from "../lib/day-words.ts";
import { listed, type Names, takeName } from "../readiness/names.ts";
import type { Standing } from "./part-view.ts";

/** Raise at once, or ask first: still true, or step back to `back`. */
export type NextStep =
  | { readonly is: "raise"; readonly level: Level }
  | { readonly is: "ask"; readonly back: Level };

const UP: { readonly [L in 0 | 1 | 2]: Level } = { 0: 1, 1: 2, 2: 3 };

/**
 * One tap goes one step up from what counts. *Locked in* is never left by accident: it asks. Stepping back goes to
 * what counts where that is already lower, so that it never takes two steps to say what the screen shows.
 */
export const nextStep = ({ marked, level }: Pick<Standing, "marked" | "level">): NextStep => {
  if (marked === 3) return { is: "ask", back: level < 3 ? level : 2 };
  const from = level < marked ? level : marked;
  return { is: "raise", level: from === 3 ? 3 : UP[from] };
};

/** Why this device may not mark that player, in one sentence with a way out; null = it may. */
export const markRefusal = (
  author: { readonly member: Id | null; readonly role: Role },
  standing: Pick<Standing, "member" | "chair">,
  names: Names,
): string | null => {
  const { member } = standing;
  if (member === null) return `Nobody is on ${names.chair(standing.chair)} yet.`;
  if (author.role === "guest") return "You are looking on; a joining link lets you mark.";
  if (author.role === "leader" || author.member === member) return null;
  if (author.member === null) return "Say who you are before you mark.";
  return `Only ${names.member(member)} or the leader marks this.`;
};

/**
 * Why the status counts for less than its player said, or that it slipped, in one sentence; null when it counts
 * as marked. `timeZone` is the band's.
 */
export const reasonSentence = (standing: Standing, names: Names, timeZone: string): string | null => {
  const reason = standing.effective?.reason;
  switch (reason?.is) {
    case "slipped since":
      return `Slipped in ${datedTake(reason.take, timeZone)}.`;
    case "changed since":
      return `Changed on ${dayWords(dayOf(reason.since, timeZone))}: learn it again.`;
    case "needs a run together": {
      const { missing, vacant } = reason;
      if (vacant.length > 0) return `Waits: nobody is on ${listed(vacant.map(names.chair))}.`;
      const partners = missing.length > 0 ? ` with ${listed(missing.map(names.member))}` : "";
      return `Waits for a run together${partners}.`;
    }
    default:
      return standing.slipped ? "Slipped the last time it was played." : null;
  }
};

/** A gig's occasion names no day, so its moment does. */
const datedTake = (take: Take, timeZone: string): string =>
  take.kind === "gig" ? `the gig of ${dayWords(dayOf(take.at, timeZone))}` : takeName(take);
