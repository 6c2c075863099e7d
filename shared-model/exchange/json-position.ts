/** Where a text stops being JSON, with what was expected there. Lines and columns count from 1. */
export interface JsonFault {
  readonly line: number;
  readonly column: number;
  /** What is wrong, as a clause: `a comma or } is missing`. */
  readonly what: string;
}

/**
 * Finds the first place where a text breaks the grammar of RFC 8259; null = it is JSON.
 * Engines word and place their own errors differently, and some leave the place out.
 */
export const findJsonFault = (text: string): JsonFault | null => {
  const scanner: Scanner = { text, at: 0, open: [], expects: "value" };
  for (;;) {
    skipSpace(scanner);
    if (scanner.at >= text.length) {
      return scanner.expects === "end" ? null : fault(scanner, "the text ends too early");
    }
    const what = step(scanner);
    if (what !== null) return fault(scanner, what);
  }
};

type Expects = "value" | "value or ]" | "name" | "name or }" | "colon" | "comma" | "end";

interface Scanner {
  readonly text: string;
  at: number;
  readonly open: ("{" | "[")[];
  expects: Expects;
}

/** Reads one token; null = it fits. */
const step = (scanner: Scanner): string | null => {
  const c = scanner.text[scanner.at] ?? "";
  const inside = scanner.open.at(-1);
  switch (scanner.expects) {
    case "end":
      return "there is more text after the end";
    case "colon":
      return c === ":" ? advance(scanner, "value") : "a colon is missing";
    case "comma":
      if (c === ",") return advance(scanner, inside === "{" ? "name" : "value");
      return close(scanner, c) ? null : `a comma or ${inside === "{" ? "}" : "]"} is missing`;
    case "name or }":
      if (close(scanner, c)) return null;
      return readName(scanner, c);
    case "name":
      return readName(scanner, c);
    case "value or ]":
      return close(scanner, c) ? null : readValue(scanner, c);
    case "value":
      return readValue(scanner, c);
  }
};

const advance = (scanner: Scanner, expects: Expects): null => {
  scanner.at += 1;
  scanner.expects = expects;
  return null;
};

const close = (scanner: Scanner, c: string): boolean => {
  const inside = scanner.open.at(-1);
  if ((c !== "}" || inside !== "{") && (c !== "]" || inside !== "[")) return false;
  scanner.open.pop();
  scanner.at += 1;
  afterValue(scanner);
  return true;
};

const afterValue = (scanner: Scanner): null => {
  scanner.expects = scanner.open.length === 0 ? "end" : "comma";
  return null;
};

const readName = (scanner: Scanner, c: string): string | null => {
  if (c !== '"') return "a name in quotation marks is missing";
  const what = readString(scanner);
  if (what === null) scanner.expects = "colon";
  return what;
};

/** A number or a word, as far as it goes. */
const SCALAR = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null/y;

const readValue = (scanner: Scanner, c: string): string | null => {
  if (c === "{" || c === "[") {
    scanner.open.push(c);
    return advance(scanner, c === "{" ? "name or }" : "value or ]");
  }
  if (c === '"') return readString(scanner) ?? afterValue(scanner);
  SCALAR.lastIndex = scanner.at;
  const scalar = SCALAR.exec(scanner.text);
  if (!scalar) return "a value is missing";
  scanner.at += scalar[0].length;
  return afterValue(scanner);
};

const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;

/** Leaves the scanner behind the closing mark, or where the string goes wrong. */
const readString = (scanner: Scanner): string | null => {
  const { text } = scanner;
  const start = scanner.at;
  let at = start + 1;
  for (;;) {
    const c = text[at];
    if (c === undefined) {
      scanner.at = start;
      return "a quotation mark is never closed";
    }
    if (c === '"') break;
    ESCAPE.lastIndex = at;
    const length = c === "\\" ? (ESCAPE.exec(text)?.[0].length ?? 0) : Number(c >= " ");
    if (length === 0) {
      scanner.at = at;
      return c === "\\"
        ? "there is a backslash with no meaning"
        : "there is a line break or control character inside quotation marks";
    }
    at += length;
  }
  scanner.at = at + 1;
  return null;
};

const SPACE = /[ \t\n\r]*/y;

const skipSpace = (scanner: Scanner): void => {
  SPACE.lastIndex = scanner.at;
  scanner.at += SPACE.exec(scanner.text)?.[0].length ?? 0;
};

const fault = ({ text, at }: Scanner, what: string): JsonFault => {
  const before = text.slice(0, at).split(/\r\n|\r|\n/);
  return { line: before.length, column: (before.at(-1)?.length ?? 0) + 1, what };
};
