import type { SongMelody } from "../board/voice.ts";
import { addSong } from "../commands/add-song.ts";
import { castPart, declareNothingSpecial } from "../commands/cast-part.ts";
import { reviseSong } from "../commands/revise-song.ts";
import { rule } from "../commands/rule.ts";
import { writeForm } from "../commands/write-form.ts";
import { nightChord } from "../selectors/night-facts.ts";
import { CHAIR_CODES, type DemoDetails, type DemoRuling, type DemoSong } from "./demo-data.ts";
import { cardId, chairId, personId, songId } from "./demo-ids.ts";
import { holderOf } from "./demo-seats.ts";
import { LEADER, pitchOf } from "./people.ts";
import type { Seeder } from "./seeder.ts";
import { FIRST_CHORDS } from "./songs/first-chords.ts";
import { ON_A_NIGHT } from "./songs/on-a-night.ts";

/** What the song said before its rulings; they bring it to what it says today. */
const beforeRulings = (song: DemoSong, rulings: readonly DemoRuling[]) => {
  const before = new Map(
    rulings
      .filter((r) => r.song === song.code)
      .flatMap((r) => (r.before === undefined ? [] : [[r.about, r.before]])),
  );
  return {
    key: before.get("key") ?? song.key,
    version: before.get("version") ?? song.version,
    countIn: before.get("count-in") ?? song.countIn,
    ending: before.get("ending") ?? song.ending,
    tuning: before.get("tuning") ?? song.tuning ?? "",
    tempo: Number(before.get("tempo") ?? song.tempo),
  };
};

/** What the melody asks of a voice, where somebody wrote down all three notes. */
const melodyOf = ({ recordKey, melody, mostly }: DemoSong): SongMelody | null =>
  melody === undefined || mostly === undefined
    ? null
    : { key: recordKey, low: pitchOf(melody[0]), typical: pitchOf(mostly), high: pitchOf(melody[1]) };

/** Adds a song as it first stood, its form and its casting. */
export const seedSong = ({ as, calendar }: Seeder, song: DemoSong, rulings: readonly DemoRuling[]): void => {
  const then = calendar.at(song.added, 17);
  const { title, stage, style, recordKey, liftKey = "", metre, length, capo = 0, notes = "" } = song;
  const id = songId(song.code);
  const playedBefore = song.playedBefore ?? false;
  const { shapeMatters = "", openLow = false } = song;
  const written = { title, stage, style, recordKey, liftKey, metre, length, capo, notes, playedBefore };
  const first = beforeRulings(song, rulings);
  const firstChord = nightChord(
    { key: song.key, firstChord: { chord: FIRST_CHORDS[song.code] ?? "", key: song.key } },
    first.key,
  );
  const entries = { ...written, firstChord, shapeMatters, openLow, melody: melodyOf(song) };
  const night = ON_A_NIGHT[song.code] ?? {};
  as(LEADER, then, addSong, { ...entries, ...night, ...first }, id);
  const sections = Object.entries(song.form).map(([name, bars]) => ({ name, bars }));
  if (sections.length > 0) {
    as(LEADER, then, writeForm, { song: id, sections }, `demo-form-${song.code.toLowerCase()}`);
  }
  for (const chair of CHAIR_CODES) {
    const casting = song.castings?.[chair];
    if (casting === undefined) continue;
    const { holder, ...rest } = casting;
    as(LEADER, then, castPart, {
      song: id,
      chair: chairId(chair),
      ...rest,
      ...(holder === undefined ? {} : { holder: personId(holder) }),
    });
  }
};

/** Writes the rulings down, each by who made it; a ruling on the tempo is followed by the song's new tempo. */
export const seedRulings = (
  { as, calendar }: Seeder,
  song: DemoSong,
  rulings: readonly DemoRuling[],
): void => {
  for (const { card, about, source, text, why = "", by, day } of rulings.filter(
    (r) => r.song === song.code,
  )) {
    const then = calendar.at(day, 21);
    const on = card === undefined ? null : cardId(card);
    as(by, then, rule, { song: songId(song.code), card: on, about, source, text, why });
    if (about === "tempo") {
      as(by, then, reviseSong, { song: songId(song.code), fields: { tempo: song.tempo } });
    }
  }
};

/** Players declare the parts that hold nothing special. */
export const seedNothingSpecial = ({ as, calendar }: Seeder, details: DemoDetails): void => {
  for (const chair of details.nothingSpecial ?? []) {
    const member = holderOf(details.song, chair);
    if (member === null) continue;
    as(member, calendar.at(details.confirmed, 22), declareNothingSpecial, {
      song: songId(details.song),
      chair: chairId(chair),
      member: personId(member),
    });
  }
};
