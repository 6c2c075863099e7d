/**
 * The song score written a second time, straight from its definition: no sharing, no memory, no cleverness.
 * It uses nothing of the readiness folder, so that a mistake there shows as a difference.
 */

import type { SongFile } from "#shared/board/board.ts";
import type { Card } from "#shared/board/card.ts";
import type { LineUp } from "#shared/board/line-up.ts";
import type { Settings } from "#shared/board/settings.ts";
import type { Take, TakeKind } from "#shared/board/take.ts";

const DAY = 24 * 60 * 60 * 1000;

export interface SlowInput {
  readonly file: SongFile;
  readonly chairs: readonly { readonly id: string }[];
  readonly lineUp: LineUp;
  readonly settings: Settings;
  readonly t: number;
  readonly asOf: number;
}

export interface SlowScore {
  readonly score: number;
  readonly logShare: number;
  readonly trouble: number;
  readonly split: Record<string, number>;
  /** By chair and card id (`-` for the part itself, chair `band` for the band). */
  readonly r: ReadonlyMap<string, number>;
}

interface Event {
  readonly take: Take;
  readonly clean: boolean;
  readonly kind: TakeKind;
  readonly q: number;
  readonly severity: number;
}

const ret = (x: number, d: number): number => 1 / (1 + x * (2 ** (1 / d) - 1)) ** d;

/** The integral, taken piece by piece between the moments at which anything changes. */
const litDays = (lamps: readonly { at: number; w: number }[], g: number): number => {
  const edges = [...new Set(lamps.flatMap(({ at }) => [at, at + g * DAY]))].sort((a, b) => a - b);
  let area = 0;
  for (let i = 0; i + 1 < edges.length; i++) {
    const [from, to] = [edges[i] ?? 0, edges[i + 1] ?? 0];
    const burning = lamps.filter(({ at }) => at <= from && from < at + g * DAY);
    area += Math.max(0, ...burning.map(({ w }) => w)) * (to - from);
  }
  return area / DAY / g;
};

export const slowScore = (input: SlowInput): SlowScore => {
  const { file, settings: s, lineUp, t, asOf } = input;
  const takes = [...new Map(file.takes.map((take) => [take.id, take])).values()]
    .filter((take) => take.at <= asOf && take.at <= t)
    .sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
  const after = (a: Take, b: Take): boolean => a.at > b.at || (a.at === b.at && a.id > b.id);
  const partId = (chair: string): string => `part:${file.song.id}:${chair}`;

  const cast = (chair: string) => file.castings.get(chair) ?? { plays: true, needed: true, share: 1 };
  const playing = input.chairs.map(({ id }) => id).filter((chair) => cast(chair).plays);
  const sat = (take: Take, chair: string, member: string): boolean =>
    take.seats.some((seat) => seat.chair === chair && seat.member === member);
  const q = (take: Take): number => ({ clean: 1, wobble: 0.5, stopped: 0 })[take.feel];
  const chairsOf = (card: Card): string[] => playing.filter((chair) => card.chairs.includes(chair));
  const cards = file.cards.filter((card) => card.without === undefined);

  const stretch = (card: Card): string[] => {
    const { from, to } = card.where;
    if (!from) return [];
    const ids = file.sections.map(({ id }) => id);
    const [a, b] = [ids.indexOf(from.section), ids.indexOf((to ?? from).section)];
    return a >= 0 && b >= a ? ids.slice(a, b + 1) : [from.section, (to ?? from).section];
  };
  const sinceOf = (card: Card): number => {
    const when = file.song.since;
    const times = [card.since, 0];
    if (["position", "shape", "register", "harmony", "vocal entry"].includes(card.kind)) times.push(when.key);
    if (["groove", "pattern", "tempo"].includes(card.kind)) times.push(when.tempo);
    if (card.kind === "ending") times.push(when.ending);
    if (card.where.from) times.push(when.form);
    for (const section of file.sections) if (stretch(card).includes(section.id)) times.push(section.since);
    return Math.max(...times);
  };
  const covered = (take: Take, card: Card | null, chair: string): boolean => {
    if (take.scope.of === "whole") return true;
    if (take.scope.of === "cards") return take.scope.cards.includes(card?.id ?? partId(chair));
    const { sections } = take.scope;
    const wanted =
      card === null || stretch(card).length === 0 ? file.sections.map(({ id }) => id) : stretch(card);
    return wanted.length > 0 && wanted.every((id) => sections.includes(id));
  };
  // A slip on the implicit card of a part is a slip on its chair.
  const aboutPart = (take: Take, chair: string): number[] =>
    take.slips
      .filter((slip) => slip.card === partId(chair) || (slip.card === null && slip.chair === chair))
      .map((slip) => slip.severity);
  const aboutCard = (take: Take, card: Card, chair: string): number[] =>
    take.slips
      .filter((slip) => slip.card === card.id && (slip.chair === null || slip.chair === chair))
      .map((slip) => slip.severity);

  const eventsFor = (card: Card | null, chair: string, member: string): Event[] =>
    takes.flatMap((take): Event[] => {
      if (!sat(take, chair, member)) return [];
      if (card && take.at < sinceOf(card)) return [];
      const severities = card ? aboutCard(take, card, chair) : aboutPart(take, chair);
      if (severities.length > 0) {
        return [{ take, clean: false, kind: take.kind, q: 0, severity: Math.max(...severities) }];
      }
      if (aboutPart(take, chair).length > 0 || take.feel === "stopped" || !covered(take, card, chair))
        return [];
      const all = !card || chairsOf(card).every((c) => take.seats.some((seat) => seat.chair === c));
      return [{ take, clean: true, kind: all ? take.kind : "solo", q: q(take), severity: 0 }];
    });

  const bandEvents = (): Event[] => {
    const needed = playing.filter((chair) => cast(chair).needed);
    if (needed.length === 0) return [];
    return takes.flatMap((take): Event[] => {
      if (!["run", "gig"].includes(take.kind) || take.scope.of !== "whole") return [];
      const unplaced = take.slips.filter((slip) => slip.chair === null && slip.card === null);
      const severity = Math.max(0, ...unplaced.map((slip) => slip.severity), take.feel === "stopped" ? 1 : 0);
      const taken = needed.filter((chair) => take.seats.some((seat) => seat.chair === chair)).length;
      if (severity > 0) {
        return 2 * taken >= needed.length ? [{ take, clean: false, kind: take.kind, q: 0, severity }] : [];
      }
      const there = needed.filter((chair) => sat(take, chair, lineUp.get(chair) ?? ""));
      const share = there.length / needed.length;
      return share >= 0.5
        ? [{ take, clean: true, kind: take.kind, q: share ** 2 * q(take), severity: 0 }]
        : [];
    });
  };

  const unit = (events: readonly Event[], level: 0 | 1 | 2 | 3, anchor: number, v: number) => {
    const clean = events.filter((event) => event.clean);
    const lamp = (event: Event) => ({ at: event.take.at, w: v * s.kindWeight[event.kind] * event.q });
    const N = Math.min(
      litDays(clean.map(lamp), s.g),
      litDays(clean.filter(({ kind }) => kind !== "solo").map(lamp), s.g) + s.soloCap,
    );
    const F = Math.max(0, ...clean.map((e) => s.fresh[e.kind] * ret((t - e.take.at) / DAY / s.H0, s.d)));
    const A = s.a * N * F;
    const slips = events.filter((event) => !event.clean);
    const B =
      s.b *
      slips
        .map(
          (slip) =>
            slip.severity *
            Math.exp(-s.kappa * litDays(clean.filter((e) => after(e.take, slip.take)).map(lamp), s.g)),
        )
        .reduce((sum, one) => sum + one, 0);
    const lastClean = Math.max(Number.NEGATIVE_INFINITY, ...clean.map((e) => e.take.at));
    const age = t - Math.max(Math.min(anchor, t), lastClean);
    const c = level === 0 ? 0 : s.claim[level] * ret(age / DAY / s.Hc, s.d);
    const D = s.k + A + B;
    return {
      r: (s.k * c + A) / D,
      said: (s.k * c) / D,
      shown: A / D,
      unsaid: (s.k * (1 - c)) / D,
      slipped: B / D,
      log: (A + B) / D,
    };
  };

  const levelOf = (
    card: Card | null,
    chair: string,
    member: string,
  ): { level: 0 | 1 | 2 | 3; anchor: number } => {
    const status = file.statuses.get(card?.id ?? partId(chair))?.get(member);
    if (!status) return { level: 0, anchor: Number.NEGATIVE_INFINITY };
    const { level, anchor } = status;
    const since = card ? sinceOf(card) : 0;
    if (level >= 2 && anchor < since) return { level: 1, anchor };
    if (level < 3) return { level, anchor };
    const own = card ? chairsOf(card) : [chair];
    const slipped = takes.some((take) =>
      own.some(
        (c) =>
          sat(take, c, member) &&
          (card ? aboutCard(take, card, c) : aboutPart(take, c)).length > 0 &&
          take.at >= since &&
          take.at > anchor,
      ),
    );
    const together =
      !card ||
      own.length < 2 ||
      takes.some(
        (take) =>
          ["run", "gig"].includes(take.kind) &&
          take.feel !== "stopped" &&
          take.at >= since &&
          covered(take, card, chair) &&
          !take.slips.some((slip) => slip.card === card.id) &&
          own.every((c) => sat(take, c, lineUp.get(c) ?? "")),
      );
    return { level: slipped || !together ? 2 : 3, anchor };
  };

  const own = (card: Card | null, chair: string) => {
    const member = lineUp.get(chair) ?? null;
    if (member === null) return null;
    const { level, anchor } = levelOf(card, chair, member);
    return unit(eventsFor(card, chair, member), level, anchor, card && level < 2 ? s.vNoticed : 1);
  };

  const r = new Map<string, number>();
  const split: Record<string, number> = {
    said: 0,
    shown: 0,
    unsaid: 0,
    slipped: 0,
    waiting: 0,
    uncovered: 0,
  };
  let [score, logShare, trouble] = [0, 0, 0];
  const add = (key: string, share: number, one: ReturnType<typeof own>, least: number): void => {
    r.set(key, one ? least : 0);
    const into = (part: string, amount: number): void => {
      split[part] = (split[part] ?? 0) + share * amount;
    };
    if (!one) {
      into("uncovered", 1);
      return;
    }
    score += share * least;
    logShare += share * one.log;
    into("said", one.r > 0 ? (one.said * least) / one.r : 0);
    into("shown", one.r > 0 ? (one.shown * least) / one.r : 0);
    into("unsaid", one.unsaid);
    into("slipped", one.slipped);
    into("waiting", one.r - least);
  };

  const partWeight = (chair: string): number => cast(chair).share * (cast(chair).needed ? 1 : s.notNeeded);
  const allParts = playing.map(partWeight).reduce((sum, one) => sum + one, 0);
  for (const chair of playing) {
    const mine = cards.filter((card) => card.chairs.includes(chair));
    const inside = s.weights.part + mine.reduce((sum, card) => sum + s.weights[card.weight], 0);
    const partShare = (1 - s.wBand) * (allParts > 0 ? partWeight(chair) / allParts : 1 / playing.length);
    const part = own(null, chair);
    add(`${chair}/-`, (partShare * s.weights.part) / inside, part, part?.r ?? 0);
    for (const card of mine) {
      const one = own(card, chair);
      const least = Math.min(...chairsOf(card).map((c) => own(card, c)?.r ?? 0));
      add(`${chair}/${card.id}`, (partShare * s.weights[card.weight]) / inside, one, least);
      if (card.weight === "must") trouble += 1 - (one ? least : 0);
    }
  }
  const band = unit(bandEvents(), 0, Number.NEGATIVE_INFINITY, 1);
  add("band/-", playing.length === 0 ? 1 : s.wBand, band, band.r);
  return { score, logShare, trouble, split, r };
};
