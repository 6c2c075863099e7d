/** What a dep's screen shows: the gig as the server last told it, with what this device has answered since. */
import { formatLength } from "../music/duration.ts";
import type { DepAnswer, DepAnswerText, DepDetail, DepGig, DepSong } from "../protocol/dep-api.ts";

/** What became of one answer of this device. */
export type AnswerState = "on this phone" | "saved" | "refused";

/** One answer this device keeps until the server's own telling of the gig holds it. */
export interface KeptAnswer {
  readonly answer: DepAnswer;
  readonly state: AnswerState;
  /** Why it was refused; empty otherwise. */
  readonly sentence: string;
}

/** One question as the screen shows it: the server's, or one of this device that is on its way. */
export interface ShownQuestion {
  readonly id: string;
  readonly text: string;
  readonly state: AnswerState;
  readonly sentence: string;
  readonly answers: readonly DepAnswerText[];
}

/** Whether a detail is got: not at all, on its way, saved, or refused and why. */
export const gotItState = (
  detail: Pick<DepDetail, "id" | "gotIt">,
  kept: readonly KeptAnswer[],
): { readonly state: AnswerState | null; readonly sentence: string } => {
  const own = kept.findLast(({ answer }) => answer.kind === "got it" && answer.card === detail.id);
  if (own !== undefined && own.state !== "saved") return own;
  return { state: detail.gotIt || own !== undefined ? "saved" : null, sentence: "" };
};

/** The questions about one detail, or about the song itself (`card` null), in the order they were asked. */
export const questionsShown = (
  song: Pick<DepSong, "id" | "questions" | "details">,
  card: string | null,
  kept: readonly KeptAnswer[],
): readonly ShownQuestion[] => {
  const shown = new Set(song.details.map(({ id }) => id));
  const told = song.questions
    .filter((question) => question.card === card)
    .map(({ id, text, answers }): ShownQuestion => ({ id, text, answers, state: "saved", sentence: "" }));
  const own = kept.flatMap(({ answer, state, sentence }): ShownQuestion[] => {
    if (answer.kind !== "ask" || answer.song !== song.id) return [];
    // A detail that left the list takes its questions to the song, so that none is lost from sight.
    const at = answer.card != null && shown.has(answer.card) ? answer.card : null;
    return at === card ? [{ id: answer.id, text: answer.text, answers: [], state, sentence }] : [];
  });
  return [...told, ...own];
};

/** Answers that stand nowhere on the screen any more: their song or detail left the gig. */
export const strayAnswers = (
  songs: readonly Pick<DepSong, "id" | "details">[],
  kept: readonly KeptAnswer[],
): readonly KeptAnswer[] => {
  const ids = new Set(songs.map(({ id }) => id));
  const cards = new Set(songs.flatMap(({ details }) => details.map(({ id }) => id)));
  return kept.filter(({ answer }) =>
    answer.kind === "ask" ? !ids.has(answer.song) : !cards.has(answer.card),
  );
};

/** The details in sight. */
export const detailsShown = (song: Pick<DepSong, "details">, onlyMusts: boolean): readonly DepDetail[] =>
  onlyMusts ? song.details.filter(({ weight }) => weight === "must") : song.details;

/** How far the dep is with a song, e.g. `2 of 5 got it`; empty where there is nothing to get. */
export const progressWords = (
  song: Pick<DepSong, "details" | "parts">,
  kept: readonly KeptAnswer[],
): string => {
  if (song.parts.length === 0) return "you do not play";
  if (song.parts.every(({ tacet }) => tacet)) return "tacet";
  if (song.details.length === 0) return "nothing special";
  const got = song.details.filter((detail) => {
    const { state } = gotItState(detail, kept);
    return state === "saved" || state === "on this phone";
  }).length;
  return `${got} of ${song.details.length} got it`;
};

/** Key, tempo and metre in one line; the lift after the key. What is not settled is left out. */
/** What is agreed about the night, labelled; what nobody said is left out. */
export const depAgreed = ({ call, start, dress, contact }: DepGig): readonly (readonly [string, string])[] =>
  (
    [
      ["Be there at", call],
      ["Playing from", start],
      ["Dress", dress],
      ["Ring", contact],
    ] as const
  ).filter(([, said]) => said !== "");

export const depFacts = ({ key, liftKey, tempo, metre }: DepSong): readonly string[] =>
  [
    key === "" ? "" : liftKey === "" ? key : `${key}, lift to ${liftKey}`,
    tempo === null ? "" : `${tempo} bpm`,
    metre,
  ].filter((fact) => fact !== "");

/** The form in one line: `Verse 8 · Chorus 8`. */
export const depForm = ({ form }: Pick<DepSong, "form">): string =>
  form.map(({ name, bars }) => `${name} ${bars}`).join(" · ");

/** Facts with their label; `paper` = needed on the music stand too. */
export type DepNotes = readonly { readonly label: string; readonly text: string; readonly paper: boolean }[];

/** What else is settled about the song. */
export const depNotes = ({ countIn, firstChord, ending, tuning, capo, version, length }: DepSong): DepNotes =>
  [
    { label: "Count-in", text: countIn, paper: true },
    { label: "First chord", text: firstChord, paper: true },
    { label: "Ending", text: ending, paper: true },
    { label: "Tuning", text: tuning, paper: true },
    { label: "Capo", text: capo === 0 ? "" : `fret ${capo}`, paper: true },
    { label: "Length", text: length === null ? "" : formatLength(length), paper: false },
    { label: "Version", text: version, paper: false },
  ].filter(({ text }) => text !== "");
