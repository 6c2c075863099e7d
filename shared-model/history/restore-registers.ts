/**
 * Marks and wordings are registers per device. A restore never writes over another device's: it compares what counts,
 * and says the earlier thing again in its own name, after everything it saw.
 */
import { equalityDeep } from "lib0/function";
import * as v from "valibot";
import { isDisputed, type TextVersion } from "../board/card.ts";
import { isPartCardId } from "../board/ids.ts";
import { isLater, type StatusMark } from "../board/status.ts";
import type { RestoreWrite } from "../commands/restore-write.ts";
import { createIssueLog } from "../document/read/decode.ts";
import { CARD_TEXTS, readText } from "../document/read/read-card.ts";
import { splitKey } from "../document/root-maps.ts";
import { STATUS_MARK, TEXT_MARK } from "../document/schema.ts";
import type { StoredValues } from "../document/stored-values.ts";
import { isCardOn, type Moments, wasOn } from "./moments.ts";

/** `card/member` or `card/field` of the registers that read differently at the two moments; only they are decoded. */
const touchedIn = ({ current, past }: Moments, map: "statuses" | "texts"): ReadonlySet<string> => {
  const touched = new Set<string>();
  for (const [key, raw] of current.entries(map))
    if (!equalityDeep(raw, past.get(map, key))) touched.add(key.slice(0, key.lastIndexOf("/")));
  return touched;
};

/** The mark that counts, by `card/member`. */
const marksOf = (values: StoredValues, touched: ReadonlySet<string>): ReadonlyMap<string, StatusMark> => {
  const marks = new Map<string, StatusMark>();
  for (const [key, raw] of values.entries("statuses")) {
    const [card, member, writer] = splitKey("statuses", key) ?? [];
    if (!touched.has(`${card}/${member}`)) continue;
    const parsed = v.safeParse(STATUS_MARK, raw);
    if (writer === undefined || !parsed.success) continue;
    const mark = { ...parsed.output, writer };
    const known = marks.get(`${card}/${member}`);
    if (known === undefined || isLater(mark, known)) marks.set(`${card}/${member}`, mark);
  }
  return marks;
};

/** Whether a detail, or the part that a part card `part:song:chair` stands for, was on the board then. */
const isMarkable = (moments: Moments, card: string): boolean => {
  if (!isPartCardId(card)) return isCardOn(moments, card);
  const cut = card.lastIndexOf(":");
  const song = card.slice(card.indexOf(":") + 1, cut);
  return wasOn(moments, "songs", song) && wasOn(moments, "chairs", card.slice(cut + 1));
};

/** Marks that count for something else than they did. A mark of *not started* is as good as none. */
export const markWrites = (moments: Moments): readonly RestoreWrite[] => {
  const isHere = (name: string): boolean => isMarkable(moments, name.slice(0, name.indexOf("/")));
  const touched = new Set([...touchedIn(moments, "statuses")].filter(isHere));
  const before = marksOf(moments.past, touched);
  const writes: RestoreWrite[] = [];
  for (const [name, now] of marksOf(moments.current, touched)) {
    const [card = "", member = ""] = name.split("/");
    // Somebody who was not in the band yet takes their marks along when they go, and brings them back.
    if (moments.states.past.of("people", member) === "absent") continue;
    const then = before.get(name);
    const level = then?.level ?? 0;
    const anchor = then?.anchor ?? 0;
    if (level === now.level && (level === 0 || anchor === now.anchor)) continue;
    writes.push({
      put: "mark",
      card,
      member,
      level,
      anchor,
      from: now.level,
      fromAnchor: now.anchor,
      seenAt: now.at,
    });
  }
  return writes;
};

/** `field/writer` → mark, by card. */
const textsOf = (values: StoredValues): ReadonlyMap<string, ReadonlyMap<string, unknown>> => {
  const cards = new Map<string, Map<string, unknown>>();
  for (const [key, raw] of values.entries("texts")) {
    const [card, field, writer] = splitKey("texts", key) ?? [];
    if (card === undefined) continue;
    const texts = cards.get(card) ?? new Map<string, unknown>();
    cards.set(card, texts.set(`${field}/${writer}`, raw));
  }
  return cards;
};

const sameVersions = (a: readonly TextVersion[], b: readonly TextVersion[]): boolean =>
  a.length === b.length && a.every(({ writer, at }, i) => b[i]?.writer === writer && b[i]?.at === at);

/** Every readable version of one text, writer → at. */
const versionTimes = (texts: ReadonlyMap<string, unknown>, field: string): Record<string, number> => {
  const times: Record<string, number> = {};
  for (const [key, raw] of texts) {
    const parsed = v.safeParse(TEXT_MARK, raw);
    if (key.startsWith(`${field}/`) && parsed.success) times[key.slice(field.length + 1)] = parsed.output.at;
  }
  return times;
};

const NONE: ReadonlyMap<string, unknown> = new Map();

/**
 * Wordings that read differently. A disagreement that arose since is settled by the earlier wording; one that was
 * open then and has been settled comes back as the wording it showed.
 */
export const wordingWrites = (moments: Moments): readonly RestoreWrite[] => {
  const issues = createIssueLog();
  const touched = touchedIn(moments, "texts");
  const before = textsOf(moments.past);
  const writes: RestoreWrite[] = [];
  for (const [card, texts] of textsOf(moments.current)) {
    if (!CARD_TEXTS.some((field) => touched.has(`${card}/${field}`)) || !isCardOn(moments, card)) continue;
    for (const field of CARD_TEXTS) {
      if (!touched.has(`${card}/${field}`)) continue;
      const then = readText(card, field, before.get(card) ?? NONE, issues);
      const now = readText(card, field, texts, issues);
      const settled = !isDisputed(now.versions) || sameVersions(then.versions, now.versions);
      if (then.text === now.text && settled) continue;
      writes.push({
        put: "wording",
        card,
        field,
        text: then.text,
        was: now.text,
        base: versionTimes(texts, field),
      });
    }
  }
  return writes;
};
