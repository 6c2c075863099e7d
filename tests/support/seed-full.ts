/** A band's whole document at the size that the budgets speak of. The same numbers give the same board. */
import type * as Y from "yjs";
import { INSTRUMENTS } from "#shared/board/band.ts";
import { CARD_KINDS } from "#shared/board/card.ts";
import type { Level } from "#shared/board/status.ts";
import { addChair } from "#shared/commands/add-chair.ts";
import { addDetail } from "#shared/commands/add-detail.ts";
import { addPerson } from "#shared/commands/add-person.ts";
import { addSong } from "#shared/commands/add-song.ts";
import { callSongs } from "#shared/commands/call-song.ts";
import { type Command, idsFrom } from "#shared/commands/command.ts";
import { logTake } from "#shared/commands/log-take.ts";
import { markDetail } from "#shared/commands/mark-detail.ts";
import { planGig } from "#shared/commands/plan-gig.ts";
import { createRunner, type Runner } from "#shared/commands/runner.ts";
import { startBand } from "#shared/commands/start-band.ts";
import { writeForm } from "#shared/commands/write-form.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { addDays, dayOf } from "#shared/lib/calendar.ts";
import { seeded } from "./big-board.ts";

export interface FullSize {
  readonly songs: number;
  readonly chairs: number;
  /** In all; part by part in turn. */
  readonly cards: number;
  /** Runs of the whole band, per song. */
  readonly takes: number;
}

/** 60 songs × 8 chairs × 5,000 details. */
export const FULL_SIZE: FullSize = { songs: 60, chairs: 8, cards: 5_000, takes: 20 };

const DAY_MS = 86_400_000;
const ZONE = "Europe/Lisbon";

const WEIGHTS = ["must", "lift", "lift", "lift", "polish"] as const;
const WORDS =
  "Ladder Harbour Biscuit Lantern Window Tractor Velvet Compass Gravel Orchard Saddle Thimble Copper Meadow Pocket Anchor".split(
    " ",
  );

export const memberOf = (chair: number): string => `person-${chair}`;
export const chairOf = (chair: number): string => `chair-${chair}`;
export const songOf = (song: number): string => `song-${song}`;
export const cardOf = (card: number): string => `card-${card}`;

type Run = <A, I>(command: Command<A, I>, args: NoInfer<I>, id: string, at: number) => void;

/** Runs commands as the leader; a new record bears the id of its run. */
const runnerAs = (runner: Runner): Run => {
  const author = { member: memberOf(0), writer: "seed", role: "leader" } as const;
  return (command, args, id, at) => {
    const done = runner.run(command, args, { id, now: at, newId: idsFrom(id), author });
    if (!done.ok) throw new Error(`${id}: ${done.error.sentence}`);
  };
};

const seedBand = (run: Run, { chairs, songs }: FullSize, begun: number, now: number): void => {
  run(startBand, { name: "Six Spare Fuses", timeZone: ZONE }, "band", begun);
  for (let c = 0; c < chairs; c++) {
    const instrument = INSTRUMENTS[c % INSTRUMENTS.length] ?? "other";
    run(addChair, { name: `Chair ${c + 1}`, short: `C${c + 1}`, instrument }, chairOf(c), begun);
    run(addPerson, { name: `Player ${c + 1}`, chairs: [chairOf(c)] }, memberOf(c), begun);
  }
  for (let s = 0; s < songs; s++) {
    const title = `${WORDS[s % WORDS.length]} ${WORDS[(s * 7 + 3) % WORDS.length]} ${s + 1}`;
    const entries = { key: "D", tempo: 112, countIn: "sticks", ending: "together", length: 240 };
    run(addSong, { title, stage: "in the book", ...entries }, songOf(s), begun);
    const sections = ["Intro", "V1", "Ch1", "V2", "Ch2", "Outro"].map((name) => ({ name, bars: 16 }));
    run(writeForm, { song: songOf(s), sections }, `form-${s}`, begun);
  }
  const date = addDays(dayOf(now, ZONE), 9);
  run(planGig, { name: "Harbour night", date, minutes: 90 }, "gig", begun);
  run(callSongs, { gig: "gig", songs: Array.from({ length: 20 }, (_, s) => songOf(s)) }, "called", begun);
};

/** Details in turn over all parts; each tenth is shared with the neighbour. */
const seedDetails = (run: Run, size: FullSize, begun: number): void => {
  const random = seeded(11);
  const parts = size.songs * size.chairs;
  for (let n = 0; n < size.cards; n++) {
    const part = n % parts;
    const [song, chair] = [Math.floor(part / size.chairs), part % size.chairs];
    const chairs = n % 10 === 9 ? [chairOf(chair), chairOf((chair + 1) % size.chairs)] : [chairOf(chair)];
    const text = `Detail ${n}: as on the record, but lighter`;
    const weight = WEIGHTS[Math.floor(n / parts) % WEIGHTS.length] ?? "lift";
    const kind = CARD_KINDS[n % CARD_KINDS.length] ?? "general";
    run(addDetail, { song: songOf(song), text, chairs, weight, kind }, cardOf(n), begun + n);
    for (const c of chairs) {
      const level = Math.floor(random() * 3) as Level;
      const at = begun + (30 + random() * 200) * DAY_MS;
      run(markDetail, { card: cardOf(n), member: c.replace("chair", "person"), level }, `mark-${n}-${c}`, at);
    }
  }
};

const seedLog = (run: Run, size: FullSize, begun: number): void => {
  const random = seeded(12);
  const seats = Array.from({ length: size.chairs }, (_, c) => ({ chair: chairOf(c), member: memberOf(c) }));
  for (let s = 0; s < size.songs; s++) {
    for (let n = 0; n < size.takes; n++) {
      const at = begun + Math.floor(20 + (n / size.takes) * 240 + random() * 5) * DAY_MS;
      const feel = random() < 0.7 ? "clean" : "wobble";
      const occasion = `r:${dayOf(at, ZONE)}`;
      run(logTake, { song: songOf(s), occasion, kind: "run", at, seats, feel }, `take-${s}-${n}`, at);
    }
  }
};

/** Writes the board into an empty document; `now` (ms) is the day it is looked at, after a season of 260 days. */
export const seedFull = (ydoc: Y.Doc, now: number, size: FullSize = FULL_SIZE): void => {
  const begun = now - 270 * DAY_MS;
  const runner = createRunner(createBoardDocument(ydoc));
  const run = runnerAs(runner);
  seedBand(run, size, begun, now);
  seedDetails(run, size, begun);
  seedLog(run, size, begun);
  runner.close();
};
