import { describe, expect, test } from "vitest";
import type { Chair, Gig } from "#shared/board/band.ts";
import type { SongFile } from "#shared/board/board.ts";
import { lineUpFor } from "#shared/board/line-up.ts";
import { scoreMember } from "#shared/readiness/member-score.ts";
import { scoreSong } from "#shared/readiness/song-score.ts";
import {
  isOpen,
  memberLineUp,
  myHead,
  myParts,
  mySongs,
  openWords,
  sameMySongs,
} from "#shared/selectors/my-parts.ts";
import { gigFirst } from "#shared/selectors/song-order.ts";
import { CHAIRS, MEMBERS, SONG } from "#tests/support/histories.ts";
import { NOTHING_AGREED } from "#tests/support/plain-gig.ts";
import { aCard, aMark, aRun, aSong, asked, holderOf } from "#tests/support/ready-song.ts";

const chairs = CHAIRS.map(
  (id): Chair => ({ id, name: id, short: id, instrument: "other", holder: holderOf(id), order: id }),
);
const people = new Map(
  MEMBERS.map((id) => [id, { id, name: id, dep: id.startsWith("dep"), voice: null, order: id }]),
);
const board = { chairs, people };

const aGig = (change: Partial<Gig> = {}): Gig => ({
  id: "spring",
  name: "Spring fair",
  place: "",
  date: "2026-03-14",
  minutes: 25,
  ...NOTHING_AGREED,
  songs: [],
  lineUp: new Map(),
  waivers: [],
  ...change,
});

const sourceOf = (file: SongFile, gig: Gig | null = null) => {
  const lineUp = lineUpFor(board, file, gig);
  return { file, chairs, lineUp, score: scoreSong({ ...asked(file, 30), lineUp }) };
};

describe("the line-up a member sees their parts under", () => {
  const file = aSong();
  const without = aGig({ lineUp: new Map([["gt", null]]) });

  test("is the gig's where they play the song that night", () => {
    const gig = aGig({ lineUp: new Map([["bs", "dep-karim"]]) });
    expect(memberLineUp(board, file, gig, "dep-karim")?.get("bs")).toBe("dep-karim");
  });

  test("is the usual one for somebody who is away that night, so that they still find their parts", () => {
    expect(memberLineUp(board, file, without, "tomasz")?.get("gt")).toBe("tomasz");
  });

  test("is none for somebody with nothing to play", () => {
    expect(memberLineUp(board, file, null, "dep-karim")).toBeNull();
  });
});

describe("a member's parts", () => {
  const cards = [
    aCard("lift", { weight: "lift" }),
    aCard("must"),
    aCard("shared", { chairs: ["gt", "bs"] }),
    aCard("others", { chairs: ["bs"] }),
  ];

  test("hold their own details in playing order, whatever they weigh", () => {
    const [part] = myParts(sourceOf(aSong({ cards })), "tomasz");
    expect(part?.details.map(({ card }) => card.id)).toEqual(["lift", "must", "shared"]);
  });

  test("tell a detail that two of their chairs share only once", () => {
    const both = chairs.map((chair) => (chair.id === "bs" ? { ...chair, holder: "tomasz" } : chair));
    const file = aSong({ cards });
    const lineUp = lineUpFor({ chairs: both, people }, file, null);
    const parts = myParts(
      { file, chairs: both, lineUp, score: scoreSong({ ...asked(file, 30), lineUp }) },
      "tomasz",
    );
    expect(parts.map((part) => part.details.map(({ card }) => card.id))).toEqual([
      ["lift", "must", "shared"],
      ["others"],
    ]);
  });

  test("leave out a chair with nothing to play", () => {
    const tacet = {
      song: SONG,
      chair: "gt",
      plays: false,
      needed: true,
      holder: null,
      share: 1,
      nothingSpecial: null,
    };
    expect(myParts(sourceOf(aSong({ cards, castings: new Map([["gt", tacet]]) })), "tomasz")).toEqual([]);
  });
});

describe("a song's line", () => {
  const cards = [aCard("a"), aCard("b", { weight: "lift" }), aCard("c", { chairs: ["gt", "bs"] })];
  const locked = (id: string) => [id, new Map([["tomasz", aMark(3, 20)]])] as const;

  test("counts open details and the musts among them, and gives the member's own score", () => {
    const file = aSong({ cards, statuses: new Map([locked("b")]) });
    const source = sourceOf(file);
    const head = myHead(source, "tomasz");
    expect(head).toMatchObject({ open: 2, musts: 2, waiting: 0, lockedIn: 1 });
    expect(head.own).toBe(Math.round((scoreMember(source.score, "tomasz") ?? -1) * 100));
    expect(openWords(head)).toBe("2 open, 2 must");
  });

  test("tells what waits for a run together apart from what is the member's to do", () => {
    const file = aSong({ cards, statuses: new Map([locked("a"), locked("b"), locked("c")]) });
    const head = myHead(sourceOf(file), "tomasz");
    expect(head).toMatchObject({ open: 0, waiting: 1, lockedIn: 2 });
    expect(openWords(head)).toBe("1 waits");
  });

  test("says that all is locked in once the shared detail was played together", () => {
    const file = aSong({
      cards,
      statuses: new Map([locked("a"), locked("b"), locked("c")]),
      takes: [aRun(25)],
    });
    expect(openWords(myHead(sourceOf(file), "tomasz"))).toBe("all locked in");
  });

  test("counts a detail as open again when it slipped after it was locked in", () => {
    const slip = { chair: "gt", card: "a", severity: 1, at: 0, writer: "phone" } as const;
    const file = aSong({ cards, statuses: new Map([locked("a")]), takes: [aRun(25, { slips: [slip] })] });
    const [part] = myParts(sourceOf(file), "tomasz");
    expect(part?.details.filter(isOpen).map(({ card }) => card.id)).toContain("a");
  });

  test("says that nobody has written anything", () => {
    expect(openWords(myHead(sourceOf(aSong({ cards: [] })), "tomasz"))).toBe("no details yet");
  });
});

describe("the order of songs", () => {
  const song = (id: string, stage: "learning" | "in the book" | "resting", title = id) => {
    const file = aSong();
    return [id, { ...file, song: { ...file.song, id, title, stage } }] as const;
  };
  const songs = new Map([
    song("z-learn", "learning"),
    song("b-book", "in the book"),
    song("a-book", "in the book"),
    song("rest", "resting", "Velvet Bus Lane"),
    song("called-rest", "resting"),
  ]);
  const gig = aGig({
    songs: ["b-book", "called-rest", "gone"].map((id) => ({
      song: id,
      order: id,
      key: null,
      tempo: null,
      tuning: null,
      block: 0,
      pin: "" as const,
    })),
  });
  const ids = ({ called, others }: ReturnType<typeof gigFirst>) => [
    called.map((file) => file.song.id),
    others.map((file) => file.song.id),
  ];

  test("is the running order of the gig, then what is learnt, then the book; resting songs only if called", () => {
    expect(ids(gigFirst(songs, gig))).toEqual([
      ["b-book", "called-rest"],
      ["z-learn", "a-book"],
    ]);
    expect(ids(gigFirst(songs, null))).toEqual([[], ["z-learn", "a-book", "b-book"]]);
  });

  test("is narrowed by words, and a search finds resting songs", () => {
    expect(ids(gigFirst(songs, gig, "velvet"))).toEqual([[], ["rest"]]);
  });

  const whole = {
    ...board,
    songs,
    gigs: [gig],
    band: { name: "", timeZone: "UTC", demo: false, tuning: "", settings: asked(aSong(), 1).settings },
    removed: new Set<string>(),
    issues: [],
    migrations: new Set<string>(),
    rehearsals: [],
    aways: [],
  };

  test("for a member leaves out what they do not play, and says so for the gig", () => {
    const mine = mySongs(whole, gig, "tomasz");
    expect([mine.called, mine.others, mine.tacet]).toEqual([
      ["b-book", "called-rest"],
      ["z-learn", "a-book"],
      [],
    ]);
    expect(mySongs(whole, gig, "dep-karim").tacet).toEqual(["b-book", "called-rest"]);
  });

  test("counts as news only what others wrote", () => {
    const file = aSong({ cards: [aCard("own"), aCard("theirs", { createdBy: "lucia" })] });
    const one = { ...whole, songs: new Map([[SONG, file]]) };
    const mine = mySongs(one, null, "tomasz");
    expect(mine.details.get(SONG)).toEqual(["theirs"]);
    expect(sameMySongs(mine, mySongs(one, null, "tomasz"))).toBe(true);
    expect(sameMySongs(mine, mySongs(whole, null, "tomasz"))).toBe(false);
  });
});
