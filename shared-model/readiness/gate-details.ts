/** Gates about details: every must locked in by who will play it, and none that slipped last time. */
import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import { LEVEL_WORDS } from "../board/status.ts";
import type { Obstacle } from "./gate-answer.ts";
import { cardName, listed, type Names, takeName } from "./names.ts";
import type { PlayingPart } from "./plan.ts";
import type { ScoreInput } from "./score-input.ts";
import type { SongScore, UnitScore } from "./song-score.ts";

type Asked = Pick<ScoreInput, "file" | "chairs" | "lineUp">;

/**
 * Units of musts that somebody in this line-up plays, cover cards included:
 * in playing order of the cards, then in column order of the chairs.
 */
const mustUnits = (
  { file, chairs }: Asked,
  score: SongScore,
): readonly { card: Card; member: Id; of: UnitScore }[] => {
  const place = new Map(file.cards.map((card, i) => [card.id, i]));
  const column = new Map(chairs.map(({ id }, i) => [id, i]));
  return [...score.units, ...score.covers]
    .flatMap((of) => {
      const { card, member } = of.unit;
      return card?.weight === "must" && member !== null ? [{ card, member, of }] : [];
    })
    .sort(
      (a, b) =>
        (place.get(a.card.id) ?? 0) - (place.get(b.card.id) ?? 0) ||
        (column.get(a.of.unit.chair ?? "") ?? 0) - (column.get(b.of.unit.chair ?? "") ?? 0),
    );
};

/** Ids of every must that applies, covered or not. */
export const mustsOf = (score: SongScore): ReadonlySet<Id> =>
  new Set(
    [...score.units, ...score.covers].flatMap(({ unit }) =>
      unit.card?.weight === "must" ? [unit.card.id] : [],
    ),
  );

/**
 * Each needed part has a must or its player's "nothing special", and every must is effectively locked in by the
 * member who will play it. A part nobody is on is the business of another gate.
 */
export const detailObstacles = (asked: Asked, score: SongScore, names: Names): readonly Obstacle[] => {
  const withMust = new Set(
    score.units.flatMap(({ unit }) => (unit.card?.weight === "must" ? [unit.chair] : [])),
  );
  const unknown = score.plan.parts.filter((part) => part.needed && !withMust.has(part.chair));
  return [...unlocked(asked, score, names), ...unknown.flatMap((part) => noDetails(asked.file, part, names))];
};

const noDetails = (file: Asked["file"], part: PlayingPart, names: Names): readonly Obstacle[] => {
  if (part.holder === null || part.nothingSpecial === part.holder) return [];
  const player = names.member(part.holder);
  return [
    {
      sentence: `${names.chair(part.chair)} has no must yet, and ${player} has not said there is nothing special.`,
      names: { song: file.song.id, chair: part.chair, member: part.holder },
    },
  ];
};

/** One obstacle per card and player; a card that only lacks a run together is one obstacle for all its players. */
const unlocked = (asked: Asked, score: SongScore, names: Names): readonly Obstacle[] => {
  const { file } = asked;
  const obstacles: Obstacle[] = [];
  const apart = new Set<Id>();
  for (const { card, member, of } of mustUnits(asked, score)) {
    const { status, unit } = of;
    if (status === null || status.level === 3) continue;
    const label = cardName(file, card);
    const player = names.member(member);
    const named = {
      song: file.song.id,
      card: card.id,
      member,
      ...(unit.chair === null ? {} : { chair: unit.chair }),
    };
    const { reason } = status;
    if (reason.is === "needs a run together") {
      if (apart.has(card.id)) continue;
      apart.add(card.id);
      obstacles.push({
        sentence: `${label} needs ${companyFor(member, inColumns(asked, reason), names)}.`,
        names: named,
      });
    } else if (reason.is === "slipped since") {
      const sentence = `${label} is back to practised: ${player} slipped on it in ${takeName(reason.take)}.`;
      obstacles.push({ sentence, names: { ...named, take: reason.take.id } });
    } else if (reason.is === "changed since") {
      obstacles.push({ sentence: `${label} has changed since ${player} marked it.`, names: named });
    } else if (status.level === 0) {
      obstacles.push({ sentence: `${label} has not been started by ${player}.`, names: named });
    } else {
      obstacles.push({
        sentence: `${label} is only ${LEVEL_WORDS[status.level]} by ${player}.`,
        names: named,
      });
    }
  }
  return obstacles;
};

type Company = { readonly missing: readonly Id[]; readonly vacant: readonly Id[] };

/** In column order of the chairs, as the board shows them. */
const inColumns = ({ chairs, lineUp }: Asked, { missing, vacant }: Company): Company => ({
  missing: [...new Set(chairs.flatMap(({ id }) => lineUp.get(id) ?? []))].filter((id) =>
    missing.includes(id),
  ),
  vacant: chairs.map(({ id }) => id).filter((id) => vacant.includes(id)),
});

const companyFor = (member: Id, { missing, vacant }: Company, names: Names): string => {
  const run =
    missing.length > 0
      ? `a run by ${names.member(member)} together with ${listed(missing.map(names.member))}`
      : "a run together";
  return vacant.length > 0 ? `${run}, and nobody is on ${listed(vacant.map(names.chair))}` : run;
};

/** No must whose last event is a slip. */
export const slipObstacles = (asked: Asked, score: SongScore, names: Names): readonly Obstacle[] =>
  mustUnits(asked, score).flatMap(({ card, member, of }) => {
    const { last } = of.evidence;
    if (last?.outcome !== "slip") return [];
    return [
      {
        sentence: `${cardName(asked.file, card)} slipped last time: ${names.member(member)}, in ${takeName(last.take)}.`,
        names: { song: asked.file.song.id, card: card.id, member, take: last.take.id },
      },
    ];
  });
