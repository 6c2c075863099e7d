import type { Id } from "#shared/board/ids.ts";
import { askQuestion } from "#shared/commands/ask-question.ts";
import { type CommandContext, idsFrom } from "#shared/commands/command.ts";
import { markDetail } from "#shared/commands/mark-detail.ts";
import { type Done, runCommand } from "#shared/commands/run-command.ts";
import type { BoardDocument } from "#shared/document/board-document.ts";
import type { Result } from "#shared/lib/result.ts";
import { API_ERRORS } from "#shared/protocol/api-errors.ts";
import type { DepAnswer, DepAsk, DepGig, DepGotIt, DepOutcome, DepSong } from "#shared/protocol/dep-api.ts";
import { depGig } from "#shared/selectors/dep-gig.ts";
import { type FollowedBoard, followBoard } from "./followed-board.ts";

/** A dep's device with what its link names. */
export interface DepSession {
  readonly device: Id;
  readonly member: Id;
  readonly gig: Id;
}

/** Questions one dep may have on the board for one gig. */
export const QUESTIONS_MAX = 100;

const GONE = API_ERRORS["gig-gone"].message;
const NOT_YOURS = "This detail is not among yours any more. Look at the list again.";
const NO_SONG = "This song is not in the running order any more. Look at the list again.";
const ENOUGH = `You have asked ${QUESTIONS_MAX} questions for this gig. Call the band instead.`;

interface Turn {
  readonly document: BoardDocument;
  readonly followed: FollowedBoard;
  readonly session: DepSession;
  readonly gig: DepGig;
  readonly now: number;
}

/**
 * Runs a dep's answers through the commands everybody uses, one after the other: what cannot be taken says why and
 * keeps nothing else back. Only what the dep is shown can be answered.
 */
export const takeDepAnswers = (
  document: BoardDocument,
  session: DepSession,
  answers: readonly DepAnswer[],
  now: number,
): readonly DepOutcome[] => {
  const followed = followBoard(document);
  return answers.map((answer) => {
    const gig = depGig(followed.board(), session.gig, session.member);
    const why = gig === null ? GONE : take({ document, followed, session, gig, now }, answer);
    return why === null ? { id: answer.id, taken: true } : { id: answer.id, taken: false, sentence: why };
  });
};

/** Null = it is on the board, now or since it came first. */
const take = (turn: Turn, answer: DepAnswer): string | null =>
  answer.kind === "got it" ? takeGotIt(turn, answer) : takeQuestion(turn, answer);

const takeGotIt = (turn: Turn, { id, card }: DepGotIt): string | null => {
  const detail = turn.gig.songs.flatMap(({ details }) => details).find((shown) => shown.id === card);
  if (detail === undefined) return NOT_YOURS;
  if (detail.gotIt) return null;
  const { board } = turn.followed;
  const args = { card, member: turn.session.member, level: 1 };
  return settle(turn, runCommand(turn.document, board(), markDetail, args, contextOf(turn, id)));
};

const takeQuestion = (turn: Turn, { id, song: songId, card = null, text }: DepAsk): string | null => {
  const { document, followed, session, gig, now: _ } = turn;
  const context = contextOf(turn, id);
  if (document.get("questions", context.id) !== undefined) return null;
  const song = gig.songs.find((shown) => shown.id === songId);
  if (song === undefined) return NO_SONG;
  if (card !== null && !song.details.some((shown) => shown.id === card)) return NOT_YOURS;
  if (gig.songs.flatMap(({ questions }) => questions).length >= QUESTIONS_MAX) return ENOUGH;
  const args = { song: songId, card, chair: chairOf(song), gig: session.gig, text };
  return settle(turn, runCommand(document, followed.board(), askQuestion, args, context));
};

/** The chair a question comes from: the first the dep plays. */
const chairOf = ({ parts }: DepSong): Id | null =>
  (parts.find(({ tacet }) => !tacet) ?? parts[0])?.chair ?? null;

const settle = ({ followed }: Turn, result: Result<Done, { readonly sentence: string }>): string | null => {
  if (!result.ok) return result.error.sentence;
  followed.took(result.value.written);
  return null;
};

/** The device's own id stands in the run's, so that nobody can answer for a question of another device. */
const contextOf = ({ session, now }: Turn, answer: string): CommandContext => {
  const id = `dep.${session.device}.${answer}`;
  const author = { member: session.member, writer: session.device, role: "dep" } as const;
  return { id, now, author, newId: idsFrom(id) };
};
