import { expect, test } from "vitest";
import * as Y from "yjs";
import { idsFrom } from "#shared/commands/command.ts";
import { rewordDetail } from "#shared/commands/reword-detail.ts";
import { runCommand } from "#shared/commands/run-command.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { depGig } from "#shared/selectors/dep-gig.ts";
import { gigBand } from "#tests/support/gig-with-dep.ts";

const DEP = { role: "dep", member: "karim", writer: "dep phone" } as const;

test("the running order with the keys and tempos of that night, the lift moved with the key", () => {
  const { board } = gigBand();
  const gig = depGig(board(), "harbour", "karim");
  expect(gig).toMatchObject({
    band: "Six Spare Fuses",
    name: "Harbour night",
    place: "North quay",
    date: "2031-05-08",
    you: "Karim Belhossat",
    chairs: ["Bass"],
  });
  expect(gig?.songs.map(({ title, key, liftKey, tempo }) => [title, key, liftKey, tempo])).toEqual([
    ["Marzipan Diesel", "Dm", "Em", 108],
    ["Umbrella Season", "A", "", null],
  ]);
  expect(gig?.songs[0]).toMatchObject({
    countIn: "sticks",
    // Written in Em, played in Dm that night.
    firstChord: "Dm7/A",
    ending: "Cold",
    tuning: "standard",
    form: [
      { name: "Verse", bars: 8 },
      { name: "Outro", bars: 4 },
    ],
    parts: [{ chair: "bass", name: "Bass", tacet: false }],
  });
  expect(gig?.songs[1]?.parts).toEqual([{ chair: "bass", name: "Bass", tacet: true }]);
});

test("the tuning of the night comes before the song's", () => {
  const { board, done } = gigBand();
  done("tuneForGig", { gig: "harbour", song: "diesel", tuning: "half step down" });
  expect(depGig(board(), "harbour", "karim")?.songs[0]).toMatchObject({
    key: "Dm",
    tuning: "half step down",
  });
});

test("the chair's details and the shared ones in playing order; covers only while the chair they cover is empty", () => {
  const { board, done } = gigBand();
  const details = () => depGig(board(), "harbour", "karim")?.songs[0]?.details ?? [];
  expect(details().map(({ id, where, shared }) => [id, where, shared])).toEqual([
    ["root", "Verse b1", []],
    ["stop", "Outro b2", ["Drums"]],
  ]);
  done("seatForGig", { gig: "harbour", chair: "voice", member: "" });
  expect(details().map(({ id }) => id)).toEqual(["cover", "root", "stop"]);
});

test("two wordings that stand side by side are both shown", () => {
  const { board, ydoc, done } = gigBand();
  const other = new Y.Doc();
  Y.applyUpdate(other, Y.encodeStateAsUpdate(ydoc));
  const document = createBoardDocument(other);
  const now = Date.UTC(2031, 4, 3);
  const author = { member: "minjae", writer: "his phone", role: "member" } as const;
  const context = { id: "apart", now, author, newId: idsFrom("apart") };
  const apart = { card: "root", field: "text", text: "Root and fifth" } as const;
  expect(runCommand(document, readBoard(document), rewordDetail, apart, context).ok).toBe(true);
  done("rewordDetail", { card: "root", field: "text", text: "Only the root" });
  Y.applyUpdate(ydoc, Y.encodeStateAsUpdate(other));
  const detail = depGig(board(), "harbour", "karim")?.songs[0]?.details[0];
  expect([detail?.text, ...(detail?.otherwise ?? [])].sort()).toEqual(["Only the root", "Root and fifth"]);
});

test("“got it” is one's own and lapses when the detail has to be learnt again", () => {
  const { board, done } = gigBand();
  const got = () => depGig(board(), "harbour", "karim")?.songs[0]?.details.map(({ gotIt }) => gotIt);
  expect(got()).toEqual([false, false]);
  done("markDetail", { card: "root", member: "karim", level: 1 }, "g1", DEP);
  expect(got()).toEqual([true, false]);
  done("reviseDetail", { card: "root", fields: { weight: "must" }, learnAgain: true });
  expect(got()).toEqual([false, false]);
  done("markDetail", { card: "root", member: "karim", level: 1 }, "g2", DEP);
  expect(got()).toEqual([true, false]);
});

test("a “got it” counts even where somebody marked more before a change", () => {
  const { board, done } = gigBand();
  const got = () => depGig(board(), "harbour", "karim")?.songs[0]?.details[0]?.gotIt;
  done("markDetail", { card: "root", member: "karim", level: 3 });
  expect(got()).toBe(true);
  done("reviseDetail", { card: "root", fields: { weight: "must" }, learnAgain: true });
  expect(got()).toBe(false);
  done("markDetail", { card: "root", member: "karim", level: 1 }, "g", DEP);
  expect(got()).toBe(true);
});

test("one's own questions of this gig with who answered; nobody else's", () => {
  const { board, done } = gigBand();
  const ask = (id: string, args: object, as: object) =>
    done("askQuestion", { song: "diesel", gig: "harbour", ...args }, id, as);
  ask("q1", { card: "root", text: "Which octave?" }, DEP);
  ask("q2", { text: "Who sings?" }, DEP);
  ask("q3", { text: "Are we paid?" }, { role: "member", member: "minjae" });
  ask("q4", { text: "And at the cellar?", gig: "cellar" }, DEP);
  done("answerQuestion", { question: "q1", text: "The low one." });
  expect(depGig(board(), "harbour", "karim")?.songs[0]?.questions).toEqual([
    {
      id: "q1",
      card: "root",
      text: "Which octave?",
      answers: [{ text: "The low one.", by: "Lucía Borrasco" }],
    },
    { id: "q2", card: null, text: "Who sings?", answers: [] },
  ]);
  done("removeDetail", { id: "root" });
  expect(depGig(board(), "harbour", "karim")?.songs[0]?.questions[0]?.card).toBeNull();
});

test("[DEP-1] nothing else of the board: no other gig, no statuses, no scores, no other names, no spotted details", () => {
  const { board, done } = gigBand();
  const text = JSON.stringify(depGig(board(), "harbour", "karim"));
  for (const secret of [
    "Cellar",
    "Old Kettle",
    "Not tonight",
    "Lucía",
    "Min-jae",
    "Fill into",
    "bridge",
    "level",
    "score",
  ])
    expect(text).not.toContain(secret);
  done("markDetail", { card: "stop", member: "lucia", level: 1 });
  expect(JSON.stringify(depGig(board(), "harbour", "karim"))).toBe(text);
});

test("nothing without the gig or without the dep; a dep who sits nowhere gets the running order alone", () => {
  const { board, done } = gigBand();
  done("seatForGig", { gig: "harbour", chair: "bass", member: null });
  const gig = depGig(board(), "harbour", "karim");
  expect([gig?.chairs, gig?.songs.map(({ details, parts }) => [details, parts])]).toEqual([
    [],
    [
      [[], []],
      [[], []],
    ],
  ]);
  done("removePerson", { id: "karim" });
  expect(depGig(board(), "harbour", "karim")).toBeNull();
  done("cancelGig", { id: "harbour" });
  expect(depGig(board(), "harbour", "lucia")).toBeNull();
});
