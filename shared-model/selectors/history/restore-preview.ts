/** What putting something back would change, in numbers, from the very writes that would do it. */
import type { RestoreWrite } from "../../commands/restore-write.ts";
import { type RecordKind, recordOf } from "../../history/record-ref.ts";
import { counted } from "./many-phrases.ts";
import { entryOf } from "./stored-names.ts";

/** What becomes of a thing. */
export type PreviewFate = "come back" | "go off the board" | "are withdrawn" | "go back";

export interface PreviewCount {
  /** A kind of record, or what is counted apart from its record. */
  readonly of: RecordKind | "status" | "wording" | "slip" | "answer" | "waiver";
  readonly fate: PreviewFate;
  readonly count: number;
  /** `3 songs come back`, `1 take is withdrawn`. */
  readonly words: string;
}

const OTHER_WORDS = {
  status: ["status", "statuses"],
  wording: ["wording", "wordings"],
  slip: ["slip", "slips"],
  answer: ["answer", "answers"],
  waiver: ["gate let pass", "gates let pass"],
} as const;

const ONE: { readonly [F in PreviewFate]: string } = {
  "come back": "comes back",
  "go off the board": "goes off the board",
  "are withdrawn": "is withdrawn",
  "go back": "goes back",
};

const isWithdrawn = (value: unknown): boolean =>
  entryOf(value, "withdrawn") === true || entryOf(value, "severity") === 0;

const fateOf = (write: RestoreWrite): PreviewFate => {
  if (write.put === "withdrawal") return "are withdrawn";
  if (write.put !== "value") return "go back";
  if (write.key.endsWith("/deleted")) return write.value === true ? "go off the board" : "come back";
  return isWithdrawn(write.seen) ? "come back" : "go back";
};

/** What a write counts as, and the name under which several writes are one. */
const subjectOf = (write: RestoreWrite): { readonly of: PreviewCount["of"]; readonly name: string } => {
  if (write.put === "mark") return { of: "status", name: `${write.card}/${write.member}` };
  if (write.put === "wording") return { of: "wording", name: `${write.card}/${write.field}` };
  const { map, key } = write;
  if (map === "slips") return { of: "slip", name: key.split("/").slice(0, 5).join("/") };
  if (map === "answers" || map === "waivers")
    return { of: map === "answers" ? "answer" : "waiver", name: key };
  const { kind, id } = recordOf(map, key);
  return { of: kind, name: id };
};

const ORDER: readonly PreviewFate[] = ["come back", "go off the board", "go back", "are withdrawn"];

const isOther = (of: PreviewCount["of"]): of is keyof typeof OTHER_WORDS => of in OTHER_WORDS;

const wordsOf = (of: PreviewCount["of"], fate: PreviewFate, n: number): string => {
  const one = n === 1;
  if (isOther(of)) return `${n} ${OTHER_WORDS[of][one ? 0 : 1]} ${one ? ONE[fate] : fate}`;
  if (of === "band") return "the band's own entries go back to how they were";
  const back = one ? " to how it was" : " to how they were";
  return `${counted(n, of)} ${one ? ONE[fate] : fate}${fate === "go back" ? back : ""}`;
};

/** One count per kind and fate: what comes back first, then what goes off, changes and is withdrawn. */
export const restorePreview = (writes: readonly RestoreWrite[]): readonly PreviewCount[] => {
  const names = new Map<string, { of: PreviewCount["of"]; fate: PreviewFate; names: Set<string> }>();
  const present = new Set<string>();
  for (const write of writes)
    if (write.put === "value" && write.key.endsWith("/deleted")) {
      const { of, name } = subjectOf(write);
      present.add(`${of} ${name}`);
    }
  for (const write of writes) {
    const { of, name } = subjectOf(write);
    const fate = fateOf(write);
    // What comes or goes as a whole is not counted once more for its entries.
    if (fate === "go back" && present.has(`${of} ${name}`)) continue;
    const group = names.get(`${of} ${fate}`) ?? { of, fate, names: new Set<string>() };
    names.set(`${of} ${fate}`, group);
    group.names.add(name);
  }
  return [...names.values()]
    .map(({ of, fate, names: { size } }) => ({ of, fate, count: size, words: wordsOf(of, fate, size) }))
    .sort((a, b) => ORDER.indexOf(a.fate) - ORDER.indexOf(b.fate));
};
