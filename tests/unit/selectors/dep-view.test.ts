import { expect, test } from "vitest";
import type { DepSong } from "#shared/protocol/dep-api.ts";
import { depGig } from "#shared/selectors/dep-gig.ts";
import {
  depFacts,
  depForm,
  depNotes,
  detailsShown,
  gotItState,
  type KeptAnswer,
  progressWords,
  questionsShown,
  strayAnswers,
} from "#shared/selectors/dep-view.ts";
import { gigBand } from "#tests/support/gig-with-dep.ts";

const songs = (): readonly DepSong[] => depGig(gigBand().board(), "harbour", "karim")?.songs ?? [];
const diesel = (): DepSong => {
  const [song] = songs();
  if (song === undefined) throw new Error("no song");
  return song;
};
const got = (card: string, state: KeptAnswer["state"], sentence = ""): KeptAnswer => ({
  answer: { id: `g-${card}`, kind: "got it", card },
  state,
  sentence,
});
const asked = (card: string | null, song = "diesel"): KeptAnswer => ({
  answer: { id: `a-${card}`, kind: "ask", song, card, text: "Why?" },
  state: "on this phone",
  sentence: "",
});

test("a detail is got by what this phone keeps or by what the server says; the latest word counts", () => {
  const detail = { id: "root", gotIt: false };
  expect(gotItState(detail, []).state).toBeNull();
  expect(gotItState({ ...detail, gotIt: true }, []).state).toBe("saved");
  expect(gotItState(detail, [got("root", "on this phone")]).state).toBe("on this phone");
  expect(gotItState(detail, [got("root", "saved")]).state).toBe("saved");
  expect(gotItState(detail, [got("root", "refused", "Gone.")])).toMatchObject({
    state: "refused",
    sentence: "Gone.",
  });
  expect(gotItState(detail, [got("stop", "saved")]).state).toBeNull();
});

test("progress counts what is on its way, not what was refused", () => {
  const song = diesel();
  expect(progressWords(song, [])).toBe("0 of 2 got it");
  expect(progressWords(song, [got("root", "on this phone"), got("stop", "refused")])).toBe("1 of 2 got it");
  expect(progressWords(songs()[1] ?? song, [])).toBe("tacet");
  expect(progressWords({ ...song, details: [] }, [])).toBe("nothing special");
  expect(progressWords({ ...song, parts: [] }, [])).toBe("you do not play");
});

test("questions stand at their detail, or at the song once the detail is not shown any more", () => {
  const song = {
    ...diesel(),
    questions: [{ id: "q", card: "root", text: "Low?", answers: [{ text: "Yes.", by: "" }] }],
  };
  const kept = [asked("root"), asked(null), asked("gone"), asked(null, "umbrella")];
  expect(questionsShown(song, "root", kept).map(({ id, state }) => [id, state])).toEqual([
    ["q", "saved"],
    ["a-root", "on this phone"],
  ]);
  expect(questionsShown(song, null, kept).map(({ id }) => id)).toEqual(["a-null", "a-gone"]);
});

test("what was said about something that left the gig is not lost from sight", () => {
  const kept = [asked("root"), asked(null, "kettle"), got("root", "refused"), got("fill", "on this phone")];
  expect(strayAnswers(songs(), kept).map(({ answer }) => answer.id)).toEqual(["a-null", "g-fill"]);
  expect(strayAnswers([], kept)).toHaveLength(4);
});

test("only musts; facts, form and notes say what is settled and nothing else", () => {
  const song = diesel();
  expect(detailsShown(song, true).map(({ id }) => id)).toEqual(["stop"]);
  expect(detailsShown(song, false)).toHaveLength(2);
  expect(depFacts(song)).toEqual(["Dm, lift to Em", "108 bpm", "4/4"]);
  expect(depFacts({ ...song, key: "", tempo: null })).toEqual(["4/4"]);
  expect(depForm(song)).toBe("Verse 8 · Outro 4");
  expect(depNotes({ ...song, capo: 2, length: 245 }).map(({ label, text }) => `${label}: ${text}`)).toEqual([
    "Count-in: sticks",
    "First chord: Dm7/A",
    "Ending: Cold",
    "Tuning: standard",
    "Capo: fret 2",
    "Length: 4:05",
  ]);
});
