import type { Card, TextVersion } from "../../board/card.ts";
import type { Grid } from "../../board/grid.ts";
import { isLater } from "../../board/status.ts";
import { CARD_BODY, TEXT_MARK, type TextMark } from "../schema.ts";
import { CARD_SIDES } from "../side-schema.ts";
import { decodeFields, decodeValue, type IssueLog } from "./decode.ts";

type Raw = ReadonlyMap<string, unknown>;

/** The text fields of a card, each a register per device. */
export const CARD_TEXTS = ["text", "right"] as const;
export type CardText = (typeof CARD_TEXTS)[number];

/** The song a card's raw body names, without decoding the rest; null when it names none. */
export const songOfBody = (raw: unknown): string | null => {
  if (typeof raw !== "object" || raw === null || !("song" in raw)) return null;
  return typeof raw.song === "string" ? raw.song : null;
};

const listIn = (raw: unknown, name: string): readonly unknown[] => {
  const list: unknown = typeof raw === "object" && raw !== null ? Reflect.get(raw, name) : undefined;
  return Array.isArray(list) ? list : [];
};

/** True when a card's raw keys name one of the chairs, as its own or in a grid; decodes nothing. */
export const namesChair = (raw: Raw, columns: ReadonlySet<string>): boolean =>
  listIn(raw.get("body"), "chairs").some((chair) => columns.has(String(chair))) ||
  ["grid", "recordedGrid"].some((name) =>
    listIn(raw.get(name), "rows").some((row) => columns.has(String(Reflect.get(Object(row), "chair")))),
  );

type Mark = TextMark & { readonly writer: string };

/** The versions nobody has superseded: those not covered by the `base` of any other register. Latest first. */
const headsOf = (marks: readonly Mark[]): readonly Mark[] =>
  marks
    .filter(
      (mark) =>
        !marks.some(
          (other) => other !== mark && (other.base[mark.writer] ?? Number.NEGATIVE_INFINITY) >= mark.at,
        ),
    )
    .sort((a, b) => (isLater(a, b) ? -1 : 1));

/** One text of a card: what is shown, and every version nobody has superseded. `texts`: `field/writer` → mark. */
export const readText = (
  card: string,
  field: CardText,
  texts: Raw,
  issues: IssueLog,
): { readonly text: string; readonly versions: readonly TextVersion[] } => {
  const marks: Mark[] = [];
  for (const [key, raw] of texts) {
    const cut = key.indexOf("/");
    if (key.slice(0, cut) !== field) continue;
    const mark = decodeValue(TEXT_MARK, raw, "texts", `${card}/${key}`, issues);
    if (mark !== null) marks.push({ ...mark, writer: key.slice(cut + 1) });
  }
  // Bases that cover each other in a circle can only come from a broken replica; then the latest stands.
  const heads = headsOf(marks);
  const shown = heads.length > 0 ? heads : [...marks].sort((a, b) => (isLater(a, b) ? -1 : 1)).slice(0, 1);
  return {
    text: shown[0]?.text ?? "",
    versions: shown.map(({ text, writer, by, at }) => ({ text, writer, by, at })),
  };
};

/** What a card's keys say, before the board decides about its chairs. */
export type CardReading =
  | { readonly state: "live"; readonly card: Card }
  | { readonly state: "removed"; readonly song: string }
  | { readonly state: "broken" };

/**
 * Decodes one card. Chairs that left the board are dropped from it and from its grids, so a detail of a sold organ
 * becomes a spotted detail instead of a gap nobody can fill.
 */
export const readCard = (
  id: string,
  raw: Raw,
  texts: Raw,
  isChair: (chair: string) => boolean,
  issues: IssueLog,
): CardReading => {
  const bodyKey = `${id}/body`;
  const rawBody = raw.get("body");
  // Everything is read first: whether a text is broken must not depend on what became of its card.
  const {
    since: asked,
    grid,
    recordedGrid,
    shape,
    ...others
  } = decodeFields(CARD_SIDES, raw, "cards", (field) => `${id}/${field}`, issues);
  const words = readWords(id, texts, issues);
  if (rawBody === undefined) {
    issues.report("cards", bodyKey, "This detail has no content yet; it may still be on its way.");
    return { state: "broken" };
  }
  const body = decodeValue(CARD_BODY, rawBody, "cards", bodyKey, issues);
  if (body === null) return { state: "broken" };
  if (raw.get("deleted") === true) return { state: "removed", song: body.song };
  const chairs = [...new Set(body.chairs)].filter(isChair);
  const since = Math.max(body.createdAt, asked);
  const onChairs = (name: "grid" | "recordedGrid", written: Grid | null) => {
    const rows = written?.rows.filter(({ chair }) => isChair(chair)) ?? [];
    return written === null || rows.length === 0 ? {} : { [name]: { ...written, rows } };
  };
  const bars = { ...onChairs("grid", grid), ...onChairs("recordedGrid", recordedGrid) };
  const held = shape === null ? {} : { shape };
  const written = Object.entries(others).filter(([, side]) => side !== null);
  const beside = written.length === 0 ? {} : { sides: Object.fromEntries(written) };
  return { state: "live", card: { id, ...body, ...words, ...bars, ...held, ...beside, chairs, since } };
};

const readWords = (id: string, texts: Raw, issues: IssueLog) => {
  const text = readText(id, "text", texts, issues);
  const right = readText(id, "right", texts, issues);
  return {
    text: text.text,
    right: right.text,
    versions: { text: text.versions, right: right.versions },
  };
};
