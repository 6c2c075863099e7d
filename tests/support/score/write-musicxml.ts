/** Scores for tests, put together from text. A quarter note has one division. */

/** `C4` for so many quarter notes. */
export const note = (name: string, quarters: number, extra = ""): string =>
  `<note><pitch><step>${name.slice(0, 1)}</step><octave>${name.slice(1)}</octave></pitch><duration>${quarters}</duration>${extra}</note>`;

export interface TestPart {
  readonly name: string;
  readonly measures: readonly string[];
  /** What else the part list says of it. */
  readonly listed: string;
}

export const part = (name: string, measures: readonly string[], listed = ""): TestPart => ({
  name,
  measures,
  listed,
});

export const scoreOf = (parts: readonly TestPart[], title = ""): string => {
  const list = parts.map(
    ({ name, listed }, i) => `<score-part id="P${i}"><part-name>${name}</part-name>${listed}</score-part>`,
  );
  const bodies = parts.map(
    ({ measures }, i) =>
      `<part id="P${i}">${measures
        .map(
          (content, n) =>
            `<measure number="${n + 1}">${n === 0 ? "<attributes><divisions>1</divisions></attributes>" : ""}${content}</measure>`,
        )
        .join("")}</part>`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><work><work-title>${title}</work-title></work><part-list>${list.join("")}</part-list>${bodies.join("")}</score-partwise>`;
};
