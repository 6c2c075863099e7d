import { isPartCardId } from "../board/ids.ts";
import { type RootMap, splitKey } from "../document/root-maps.ts";

/** What kind of thing a change is about, as people would sort it. */
export type RecordKind =
  | "band"
  | "song"
  | "section"
  | "part"
  | "chair"
  | "person"
  | "gig"
  | "rehearsal"
  | "away"
  | "detail"
  | "take"
  | "ruling"
  | "question"
  | "upkeep"
  | "unknown";

/** The record a change is about. `id`: song/section, song/chair or occasion/song/no where one id is not enough. */
export interface RecordRef {
  readonly kind: RecordKind;
  readonly id: string;
}

/** The part that a part card `part:song:chair` stands for, as `song/chair`. */
export const partOf = (card: string): string => {
  const cut = card.lastIndexOf(":");
  return `${card.slice(card.indexOf(":") + 1, cut)}/${card.slice(cut + 1)}`;
};

const onCard = (card: string): RecordRef =>
  isPartCardId(card) ? { kind: "part", id: partOf(card) } : { kind: "detail", id: card };

/** Total: a key of another form is about something unknown. */
export const recordOf = (map: RootMap, key: string): RecordRef => {
  const [a = "", b = "", c = ""] = splitKey(map, key) ?? [];
  if (a === "") return { kind: "unknown", id: `${map}/${key}` };
  switch (map) {
    case "band":
    case "settings":
      return { kind: "band", id: "" };
    case "songs":
    case "hints":
      return { kind: "song", id: a };
    case "chairs":
      return { kind: "chair", id: a };
    case "people":
      return { kind: "person", id: a };
    case "gigs":
    case "setSongs":
    case "lineUps":
    case "waivers":
      return { kind: "gig", id: a };
    case "rehearsals":
    case "attendance":
    case "standIns":
    case "pins":
      return { kind: "rehearsal", id: a };
    case "aways":
      return { kind: "away", id: a };
    case "sections":
      return { kind: "section", id: `${a}/${b}` };
    case "castings":
      return { kind: "part", id: `${a}/${b}` };
    case "textures":
      return { kind: "part", id: `${a}/${c}` };
    case "cards":
    case "texts":
    case "statuses":
      return onCard(a);
    case "takes":
    case "slips":
      return { kind: "take", id: `${a}/${b}/${c}` };
    case "rulings":
      return { kind: "ruling", id: a };
    case "questions":
    case "answers":
      return { kind: "question", id: a };
    case "migrations":
      return { kind: "upkeep", id: a };
    default:
      return { kind: "unknown", id: `${map}/${key}` };
  }
};
