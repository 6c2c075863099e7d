/**
 * How places move when bars are put into a form, taken out of it, or its sections are cut and joined.
 * Governing rule: what stands before an edit stays, what stands behind moves along, and nothing is lost: a place whose bar
 * is gone falls to what is left of its section and is marked as lost.
 */
import type { Card, Place, Where } from "./card.ts";
import type { Id } from "./ids.ts";
import type { TextureChanges } from "./texture.ts";

/** One edit of a form. Bars count from 1. */
export type FormEdit =
  /** `count` bars before bar `at` of a section; `at` may be one behind its last bar. */
  | { readonly of: "insert"; readonly section: Id; readonly at: number; readonly count: number }
  /** `count` bars from bar `at` on. */
  | { readonly of: "remove"; readonly section: Id; readonly at: number; readonly count: number }
  /** From bar `at` on, at least 2, the section is another one. */
  | { readonly of: "split"; readonly section: Id; readonly at: number; readonly into: Id }
  /** A section of `bars` bars takes in the one that follows it. */
  | { readonly of: "join"; readonly section: Id; readonly bars: number; readonly next: Id };

/** Where a bar of the edited form's sections goes; null = it is gone. */
const movedBar = (edit: FormEdit, section: Id, bar: number): { section: Id; bar: number } | null => {
  if (edit.of === "join")
    return section === edit.next ? { section: edit.section, bar: bar + edit.bars } : { section, bar };
  if (section !== edit.section || bar < edit.at) return { section, bar };
  if (edit.of === "insert") return { section, bar: bar + edit.count };
  if (edit.of === "split") return { section: edit.into, bar: bar - edit.at + 1 };
  return bar < edit.at + edit.count ? null : { section, bar: bar - edit.count };
};

/** One end of a stretch. Without a bar it stands for the whole section, or what it has become. */
const movedPlace = (edit: FormEdit, place: Place, isEnd: boolean): Place => {
  const { section, bar, ...beat } = place;
  if (bar === undefined) {
    if (edit.of === "join" && section === edit.next) return { section: edit.section };
    // The end of a section that was split lies in its second half.
    if (edit.of === "split" && section === edit.section && isEnd) return { section: edit.into };
    return place;
  }
  const moved = movedBar(edit, section, bar);
  // A bar that is gone has no beat any more: the whole section is what can still be said.
  return moved === null ? { section } : { ...moved, ...beat };
};

/** A place after an edit; the same reference where nothing moves. */
export const movedWhere = (edit: FormEdit, where: Where): Where => {
  const { from, to } = where;
  if (from === undefined) return where;
  const [start, last] = [movedPlace(edit, from, false), movedPlace(edit, to ?? from, true)];
  // A joined or split section that stood for itself alone stretches over what it has become.
  const stretches = to !== undefined || (from.bar === undefined && last.section !== start.section);
  const same = (a: Place | undefined, b: Place | undefined): boolean =>
    a?.section === b?.section && a?.bar === b?.bar && a?.beat === b?.beat;
  if (same(start, from) && (!stretches || same(last, to))) return where;
  const { from: _from, to: _to, ...others } = where;
  const rest: Where = losesPlace(edit, where) ? { ...others, lost: true } : others;
  return stretches ? { ...rest, from: start, to: last } : { ...rest, from: start };
};

/** True when the bar of either end is taken out by the edit: the words stay, their place has to be said anew. */
export const losesPlace = (edit: FormEdit, { from, to }: Where): boolean =>
  edit.of === "remove" &&
  [from, to].some((place) => place?.bar !== undefined && movedBar(edit, place.section, place.bar) === null);

/** A section that is taken out of the form. No place is rewritten: whoever reads it sees that its section is gone. */
export interface SectionOut {
  readonly of: "out";
  readonly section: Id;
}

/** How many details an edit touches. */
export interface Touched {
  /** They keep their bar, or what has become of their section. */
  readonly moves: number;
  /** Their bar or section is gone. */
  readonly loses: number;
}

/** Details that move and those that lose their place, for whoever is about to edit. */
export const touchedBy = (cards: readonly Pick<Card, "where">[], edit: FormEdit | SectionOut): Touched => {
  if (edit.of === "out") {
    const stands = ({ from, to }: Where): boolean =>
      from?.section === edit.section || to?.section === edit.section;
    return { moves: 0, loses: cards.filter(({ where }) => stands(where)).length };
  }
  const loses = cards.filter(({ where }) => losesPlace(edit, where)).length;
  const changed = cards.filter(({ where }) => movedWhere(edit, where) !== where).length;
  return { moves: changed - loses, loses };
};

/** What is said of who plays in the edited section, after an insertion or a removal of bars. */
export const movedChanges = (edit: FormEdit, section: Id, changes: TextureChanges): TextureChanges => {
  if (section !== (edit.of === "join" ? edit.next : edit.section)) return changes;
  const moved = new Map<string, TextureChanges[number]>();
  for (const change of changes) {
    const to = movedBar(edit, section, change.bar);
    // What began in a bar that is gone begins at the first bar left; the last word there counts.
    const bar = to?.bar ?? (edit.of === "remove" ? edit.at : change.bar);
    if (to !== null && to.section !== section) continue;
    moved.set(`${change.pass} ${bar}`, { ...change, bar });
  }
  return [...moved.values()].sort((a, b) => (a.pass ?? 0) - (b.pass ?? 0) || a.bar - b.bar);
};
