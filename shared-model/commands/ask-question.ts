import * as v from "valibot";
import type { Board } from "../board/board.ts";
import type { Question } from "../board/question.ts";
import type { Json } from "../document/board-document.ts";
import { id } from "../document/schema.ts";
import { questionText } from "../document/schema-log.ts";
import { chairExists, firstOf, gigExists, personExists, songExists } from "./checks.ts";
import { type Author, defineCommand, type Refusal, refuse } from "./command.ts";

const said = (what: string) => v.pipe(v.string(), v.trim(), v.minLength(1, what), questionText);

/** The question of this id, on whatever song it is about; null when there is none. */
export const findQuestion = (board: Board, question: string): Question | null => {
  for (const file of board.songs.values()) {
    const found = file.questions.find((q) => q.id === question);
    if (found) return found;
  }
  return null;
};

const questionExists = (board: Board, question: string): Refusal | null =>
  findQuestion(board, question) ? null : refuse("gone", "This question is not on the board any more.");

/** Asks about a song or one of its details. Asked once: what comes again under the same run changes nothing. */
export const askQuestion = defineCommand({
  name: "askQuestion",
  schema: v.object({
    song: id,
    card: v.optional(v.nullable(id), null),
    chair: v.optional(v.nullable(id), null),
    gig: v.optional(v.nullable(id), null),
    to: v.optional(v.nullable(id), null),
    ruling: v.optional(v.nullable(id), null),
    text: said("write what you want to know"),
  }),
  dep: () => null,
  check: (board, { song, card, chair, gig, to, ruling }) =>
    firstOf(
      songExists(board, song),
      card === null || board.songs.get(song)?.cards.some((c) => c.id === card)
        ? null
        : refuse("gone", "This detail is not on the board any more. Ask about the song instead."),
      chair === null ? null : chairExists(board, chair),
      gig === null ? null : gigExists(board, gig),
      to === null ? null : personExists(board, to),
      ruling === null || board.songs.get(song)?.rulings.some((r) => r.id === ruling)
        ? null
        : refuse("gone", "This ruling is not on the board any more."),
    ),
  write: (set, args, { now, author, newId, stored }, board) => {
    const question = newId();
    if (stored("questions", question) !== undefined) return;
    // A disagreement comes after every ruling it knows of, however slow this device's clock is.
    const known = args.ruling === null ? [] : (board.songs.get(args.song)?.rulings ?? []);
    const at = Math.max(now, ...known.map((ruling) => ruling.at + 1));
    set("questions", question, { ...args, by: author.member ?? "", at, settled: false, withdrawn: false });
  },
});

/** Answers a question. Two who answer apart both keep their answer; answering again replaces this device's own. */
export const answerQuestion = defineCommand({
  name: "answerQuestion",
  schema: v.object({ question: id, text: said("write the answer") }),
  check: (board, { question }) => questionExists(board, question),
  write: (set, { question, text }, { now, author }) =>
    set("answers", `${question}/${author.writer}`, {
      text,
      by: author.member ?? "",
      at: now,
      withdrawn: false,
    }),
});

/** Only who asked, or the leader, may close a question or take it off. */
const isTheirs = (board: Board, question: string, author: Author, what: string): Refusal | null =>
  author.role === "leader" || (author.member !== null && findQuestion(board, question)?.by === author.member)
    ? null
    : refuse("forbidden", `Only who asked, or the leader, can ${what}.`);

const storedQuestion = (value: unknown) => value as { readonly [key: string]: Json };

/** Closes a question, answered or not: who asked is content, or the leader is. */
export const settleQuestion = defineCommand({
  name: "settleQuestion",
  schema: v.object({ question: id }),
  check: (board, { question }, { author }) =>
    firstOf(questionExists(board, question), isTheirs(board, question, author, "say that this is settled")),
  write: (set, { question }, { stored }) =>
    set("questions", question, { ...storedQuestion(stored("questions", question)), settled: true }),
});

/** Takes a question off the board: one's own, or anybody's for the leader. */
export const withdrawQuestion = defineCommand({
  name: "withdrawQuestion",
  schema: v.object({ question: id }),
  check: (board, { question }, { author }) =>
    firstOf(
      questionExists(board, question),
      isTheirs(board, question, author, "take a question off the board"),
    ),
  write: (set, { question }, { stored }) =>
    set("questions", question, { ...storedQuestion(stored("questions", question)), withdrawn: true }),
});
