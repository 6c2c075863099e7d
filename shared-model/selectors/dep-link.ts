/** The link a dep gets for one gig: until when it lets them in, and what is asked of the server for it. */
import type { Gig } from "../board/band.ts";
import type { Id } from "../board/ids.ts";
import { addDays, endOfDay } from "../lib/calendar.ts";
import type { CreateLink } from "../protocol/api.ts";

/** A dep's link lasts at most this long; for a later gig it is made anew. The server holds to the same bound. */
const DAYS_MAX = 60;

/** What to ask for; null once the day after the gig is over. `now` in ms. */
export const depLinkFor = (
  gig: Pick<Gig, "id" | "name" | "date">,
  member: { readonly id: Id; readonly name: string },
  timeZone: string,
  now: number,
): (CreateLink & { readonly expiresAt: number }) | null => {
  const end = endOfDay(addDays(gig.date, 1), timeZone);
  if (end <= now) return null;
  return {
    role: "dep",
    memberId: member.id,
    gig: gig.id,
    label: `${member.name}, ${gig.name || gig.date}`.slice(0, 200),
    expiresAt: Math.min(end, now + DAYS_MAX * 86_400_000),
  };
};
