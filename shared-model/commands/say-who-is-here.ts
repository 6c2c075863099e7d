import * as v from "valibot";
import type { Board } from "../board/board.ts";
import type { Json } from "../document/board-document.ts";
import { day, id, moment, seat } from "../document/schema.ts";
import { chairExists, firstOf, personExists, seatExists } from "./checks.ts";
import { defineCommand, type Refusal, refuse } from "./command.ts";

/**
 * Says when somebody is in the room on one evening: not at all, from a moment on, until a moment. Anybody in the room may
 * say it. It decides who sat where in the takes logged from then on, not in those that were.
 */
export const sayWhoIsHere = defineCommand({
  name: "sayWhoIsHere",
  schema: v.object({
    day,
    person: id,
    here: v.boolean(),
    from: v.optional(v.nullable(moment), null),
    to: v.optional(v.nullable(moment), null),
  }),
  check: (board, { person, from, to }) =>
    firstOf(
      personExists(board, person),
      from !== null && to !== null && to < from
        ? refuse("invalid", "Nobody leaves before they come. Correct one of the two times.")
        : null,
    ),
  write: (set, { day, person, here, from, to }, { now }) =>
    set("attendance", `${day}/${person}`, { here, from, to, at: now }),
});

/** Puts somebody on a chair for one evening; empty takes them off it. */
export const standIn = defineCommand({
  name: "standIn",
  schema: v.object({ day, chair: id, member: seat }),
  check: (board, { chair, member }) => firstOf(chairExists(board, chair), seatExists(board, member)),
  write: (set, { day, chair, member }) => set("standIns", `${day}/${chair}`, member),
});

const mayEdit = (person: string, member: string | null, role: string): Refusal | null =>
  role === "leader" || member === person
    ? null
    : refuse("forbidden", "Only the member, or the leader, can say when they are away.");

/** Says the days, both included, on which somebody cannot come. Why does not belong here. */
export const sayAway = defineCommand({
  name: "sayAway",
  schema: v.object({ person: id, from: day, to: day }),
  check: (board, { person, from, to }, { author }) =>
    firstOf(
      personExists(board, person),
      mayEdit(person, author.member, author.role),
      to < from ? refuse("invalid", "The last day lies before the first. Swap them or correct one.") : null,
    ),
  write: (set, { person, from, to }, { now, author, newId }) =>
    set("aways", newId(), { person, from, to, by: author.member ?? "", at: now, withdrawn: false }),
});

const awayOf = (board: Board, id: string) => board.aways.find((away) => away.id === id);

/** Takes back that somebody is away. */
export const withdrawAway = defineCommand({
  name: "withdrawAway",
  schema: v.object({ away: id }),
  check: (board, { away }, { author }) => {
    const found = awayOf(board, away);
    return found === undefined
      ? refuse("gone", "Nobody says any more that they are away then.")
      : mayEdit(found.person, author.member, author.role);
  },
  write: (set, { away }, { stored }) =>
    set("aways", away, { ...(stored("aways", away) as { readonly [name: string]: Json }), withdrawn: true }),
});
