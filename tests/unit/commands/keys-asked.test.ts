import { expect, test } from "vitest";
import { smallBand } from "#tests/support/command-bench.ts";

const AT = { gig: "harbour", song: "diesel" };

const asking = () => {
  const trial = smallBand();
  trial.done("callSongs", { gig: "harbour", songs: ["diesel"] });
  trial.done("askForKey", { ...AT, key: "Dm" }, { member: "minjae", role: "member" });
  const gig = () => trial.board().gigs.find(({ id }) => id === "harbour");
  return { ...trial, asked: () => gig()?.keysAsked.get("diesel")?.key };
};

test("a key that is asked for is answered by a key that is set, not by a form that sends the key along", () => {
  const { done, asked } = asking();
  done("tuneForGig", { ...AT, key: null, tempo: 108, tuning: null });
  expect(asked()).toBe("Dm");
  done("tuneForGig", { ...AT, tempo: 110 });
  expect(asked()).toBe("Dm");
  done("tuneForGig", { ...AT, key: "Dm" });
  expect(asked()).toBeUndefined();
});

test("it may be the key that stands, and leaves with the song", () => {
  const { done, asked } = asking();
  done("tuneForGig", { ...AT, key: "Em" });
  expect(asked()).toBeUndefined();
  done("askForKey", { ...AT, key: "Dm" });
  done("dropSong", AT);
  done("callSongs", { gig: "harbour", songs: ["diesel"] });
  expect(asked()).toBeUndefined();
});
