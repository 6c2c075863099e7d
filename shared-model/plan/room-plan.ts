/**
 * What to rehearse in the minutes there are: the plans whose expected gain on the night, weighed by the song's place in it,
 * sums highest. An exact answer to a model that is not: in simulation the plain rule did as well on whole runs; the plan earns
 * its place by minutes, absences, drills, gates and reasons.
 */
import type { Gig } from "../board/band.ts";
import type { SongFile } from "../board/board.ts";
import type { GateName } from "../board/gate.ts";
import type { Id } from "../board/ids.ts";
import { lineUpFor } from "../board/line-up.ts";
import { gigReady } from "../readiness/gates.ts";
import { namesOf } from "../readiness/names.ts";
import { plannedTake, withPlanned } from "../readiness/planned.ts";
import type { ScoreInput } from "../readiness/score-input.ts";
import { scoreSong } from "../readiness/song-score.ts";
import type { PlanLine, PlanQuestion, RoomPlan } from "./evening-plan.ts";
import { homeworkOf } from "./homework.ts";
import { chanceOf, gainsOf, menuOf, type PlanChoice } from "./menu.ts";
import { AFTER_MS, drilledInput, outlookOf, type Room, type SongOutlook, seatedTonight } from "./outlook.ts";
import { inPlayingOrder } from "./play-order.ts";
import { type Choice, type Menu, mustsTooMany, solve } from "./solve.ts";

/** Worth of clearing every gate of a song, in points of a score of 1. */
const BONUS = 0.15;
const WEIGHT = { inOrder: 1, edge: 1.25, upkeep: 0.25 } as const;

interface Valued extends Choice {
  readonly choice: PlanChoice;
  readonly outlook: SongOutlook;
  readonly clears: readonly GateName[];
}

const weightOf = (gig: Gig | null, song: Id): number => {
  if (gig === null || gig.songs.length === 0) return WEIGHT.inOrder;
  const place = gig.songs.findIndex((called) => called.song === song);
  if (place < 0) return WEIGHT.upkeep;
  return place === 0 || place === gig.songs.length - 1 ? WEIGHT.edge : WEIGHT.inOrder;
};

const inputOf = ({ board, gig, night, now }: PlanQuestion, file: SongFile): ScoreInput => ({
  file,
  chairs: board.chairs,
  lineUp: lineUpFor(board, file, gig),
  settings: board.band.settings,
  t: Math.max(night, now),
  asOf: now,
});

/** The song as it stands once everything in the plan has worked. */
const ifAllWorks = (
  { input, plan }: SongOutlook,
  { drilled, block }: PlanChoice,
  room: Room,
  now: number,
): ScoreInput => {
  const base = withPlanned(input, []);
  const take = (kind: "drill" | "run", at: number) =>
    seatedTonight(
      plannedTake(base.file, plan, {
        kind,
        scope: kind === "run" ? { of: "whole" } : { of: "cards", cards: [...drilled] },
        at,
      }),
      plan,
      room,
    );
  const takes = [
    ...(drilled.size > 0 ? [take("drill", now)] : []),
    ...(block.runs > 0 ? [take("run", now + AFTER_MS)] : []),
  ];
  return drilledInput(base, plan, takes, room, now, ({ id }) => drilled.has(id));
};

/** Every choice of one song in every phase, with its value. */
const valuedChoices = (question: PlanQuestion, file: SongFile): readonly Valued[] => {
  const { gig, now, phases, board } = question;
  const input = inputOf(question, file);
  const today = scoreSong({ ...input, t: now });
  const asked = { gig, names: namesOf(board) };
  const inOrder = gig?.songs.some(({ song }) => song === file.song.id) === true;
  const failing = inOrder
    ? gigReady(input, asked).gates.flatMap((gate) => (gate.ok || gate.waived !== null ? [] : [gate.gate]))
    : [];
  const weight = weightOf(gig, file.song.id);
  return phases.flatMap((room, phase) => {
    const outlook = outlookOf(input, room, now, today);
    return menuOf(outlook).map((choice): Valued => {
      let clears: readonly GateName[] = [];
      if (failing.length > 0) {
        const { gates } = gigReady(ifAllWorks(outlook, choice, room, now), asked);
        clears = failing.filter((name) => gates.find(({ gate }) => gate === name)?.ok === true);
      }
      const all = failing.length > 0 && clears.length === failing.length;
      const bonus = all ? BONUS * chanceOf(outlook, choice) : 0;
      const value = weight * (choice.gain + bonus);
      return { phase, minutes: choice.block.minutes, value, choice, outlook, clears };
    });
  });
};

const lineOf = (song: Id, { phase, value, choice, outlook, clears }: Valued, room: Room): PlanLine => ({
  song,
  phase,
  block: choice.block,
  before: outlook.before,
  after: outlook.before + choice.gain,
  today: outlook.today,
  value,
  because: gainsOf(outlook, choice)
    .slice(0, 3)
    .map(({ outlook: { unit }, gain }) => ({ of: unit.of, card: unit.card, member: unit.member, gain })),
  clears,
  missing: [
    ...new Set(
      outlook.plan.parts.flatMap(({ holder }) =>
        holder === null || room.present.has(holder) ? [] : [holder],
      ),
    ),
  ],
});

/** Songs there is a reason to play tonight, by id: the gig's, and those in the book or being learnt. */
const songsAsked = ({ board, gig, pins }: PlanQuestion): readonly SongFile[] => {
  const called = new Set(gig?.songs.map(({ song }) => song));
  return [...board.songs.values()]
    .filter(({ song }) => {
      if (pins.get(song.id) === "not tonight") return false;
      const alive = song.stage === "in the book" || song.stage === "learning";
      return pins.has(song.id) || called.has(song.id) || alive;
    })
    .sort((a, b) => (a.song.id < b.song.id ? -1 : 1));
};

/** Works through the songs one by one; `null` between them, so that a page stays answerable. */
function* menusOf(question: PlanQuestion): Generator<null, readonly Menu<Valued>[]> {
  const menus: Menu<Valued>[] = [];
  for (const file of songsAsked(question)) {
    const { id } = file.song;
    const choices = valuedChoices(question, file);
    if (choices.length > 0) menus.push({ song: id, must: question.pins.get(id) === "must", choices });
    yield null;
  }
  return menus;
}

function* planOf(
  question: PlanQuestion,
  picked: readonly { readonly song: Id; readonly valued: Valued }[],
  refused: readonly Id[],
): Generator<null, RoomPlan> {
  const lines = picked.map(({ song, valued }) =>
    lineOf(song, valued, question.phases[valued.phase] ?? { present: new Set(), standIns: {} }),
  );
  yield null;
  return {
    lines: inPlayingOrder(lines, (song) => question.board.songs.get(song)?.song.tuning ?? ""),
    minutes: lines.reduce((sum, { block }) => sum + block.minutes, 0),
    value: lines.reduce((sum, { value }) => sum + value, 0),
    homework: homeworkOf(question),
    refused,
  };
}

/** The plan of highest value. Musts that do not fit give way, dearest first, and are named. */
export function* planRoom(question: PlanQuestion): Generator<null, RoomPlan> {
  const menus = yield* menusOf(question);
  const minutes = question.phases.map((phase) => phase.minutes);
  const refused = mustsTooMany(menus, minutes);
  yield null;
  const solution = solve(
    menus.map((menu) => (refused.includes(menu.song) ? { ...menu, must: false } : menu)),
    minutes,
  );
  const picked = menus.flatMap(({ song, choices }) => {
    const valued = choices[solution?.chosen.get(song) ?? -1];
    return valued === undefined ? [] : [{ song, valued }];
  });
  return yield* planOf(question, picked, refused);
}

/** Songs of the running order first, lowest score first, one whole run each while the minutes last; musts before all. */
export function* plainRule(question: PlanQuestion): Generator<null, RoomPlan> {
  const menus = yield* menusOf(question);
  const called = new Set(question.gig?.songs.map(({ song }) => song));
  const rank = ({ song, must, choices }: Menu<Valued>): readonly number[] => [
    must ? 0 : 1,
    called.has(song) ? 0 : 1,
    choices[0]?.outlook.today ?? 0,
  ];
  const sorted = [...menus].sort((a, b) => {
    const [left, right] = [rank(a), rank(b)];
    const at = left.findIndex((n, i) => n !== right[i]);
    return at < 0 ? (a.song < b.song ? -1 : 1) : (left[at] ?? 0) - (right[at] ?? 0);
  });
  const left = question.phases.map((phase) => phase.minutes);
  const refused: Id[] = [];
  const picked = sorted.flatMap(({ song, must, choices }) => {
    const valued = choices.find(
      ({ choice, phase, minutes }) =>
        choice.block.runs === 1 &&
        choice.drilled.size === 0 &&
        Math.ceil(minutes * 2) / 2 <= (left[phase] ?? 0),
    );
    if (valued === undefined) {
      if (must) refused.push(song);
      return [];
    }
    left[valued.phase] = (left[valued.phase] ?? 0) - Math.ceil(valued.minutes * 2) / 2;
    return [{ song, valued }];
  });
  return yield* planOf(question, picked, refused);
}
