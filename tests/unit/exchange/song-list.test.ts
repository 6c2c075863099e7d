import { expect, test } from "vitest";
import { type ReadSong, readSongList } from "#shared/exchange/song-list.ts";

const titles = (text: string, known: readonly string[] = []) =>
  readSongList(text, known).songs.map((song) => song.title);
const messages = (text: string, known: readonly string[] = []) =>
  readSongList(text, known).problems.map((problem) => problem.message);
const song = (line: number, title: string, more: Partial<ReadSong> = {}): ReadSong => ({
  line,
  title,
  key: "",
  tempo: null,
  length: null,
  duplicate: false,
  ...more,
});

const MARZIPAN = { key: "D", tempo: 112, length: 240 };

test("one title per line, whatever the line ends, with empty lines in between", () => {
  for (const end of ["\n", "\r\n", "\r"]) {
    const text = ["\ufeffMarzipan Diesel", "", "  Tollbooth   Cinnamon ", "Tea, Rain and Trams", ""].join(
      end,
    );
    expect(readSongList(text)).toEqual({
      songs: [song(1, "Marzipan Diesel"), song(3, "Tollbooth Cinnamon"), song(4, "Tea, Rain and Trams")],
      problems: [],
    });
  }
});

test("bullets and list numbers are taken off, numbers in titles are not", () => {
  expect(titles("- One Way\n• Two Ways\n*  Three Ways")).toEqual(["One Way", "Two Ways", "Three Ways"]);
  expect(titles("1. Marzipan Diesel\n2. 99 Umbrellas\n12) Lamplighter's Overdraft")).toEqual([
    "Marzipan Diesel",
    "99 Umbrellas",
    "Lamplighter's Overdraft",
  ]);
  expect(titles("Marzipan Diesel\nTollbooth Cinnamon\n7. Platform")).toContain("7. Platform");
  expect(titles("-Minus\n'Til Noon\n=1+1\n@Home")).toEqual(["-Minus", "'Til Noon", "=1+1", "@Home"]);
});

test("a header names the columns in any order and case, for commas, semicolons and tabs", () => {
  for (const by of [",", ";", "\t"]) {
    const text = [
      ["BPM", "Song", "Length", "Key"].join(by),
      ["112", "Marzipan Diesel", "4:00", "D"].join(by),
      ["", "Tollbooth Cinnamon", "", "a"].join(by),
    ].join("\r\n");
    expect(readSongList(text)).toEqual({
      songs: [song(2, "Marzipan Diesel", MARZIPAN), song(3, "Tollbooth Cinnamon", { key: "A" })],
      problems: [],
    });
  }
});

test("without a header the columns are known by what is in them", () => {
  const text = "1\tMarzipan Diesel\tD\t112\t4:00\n2\tUmbrella for the Tram Inspector\tC\t168\t2:57";
  expect(readSongList(text)).toEqual({
    songs: [
      song(1, "Marzipan Diesel", MARZIPAN),
      song(2, "Umbrella for the Tram Inspector", { key: "C", tempo: 168, length: 177 }),
    ],
    problems: [],
  });
  expect(readSongList("Marzipan Diesel, D, 112, 4:00").songs).toEqual([song(1, "Marzipan Diesel", MARZIPAN)]);
});

test("a credit column is left out with a note, everything else is read", () => {
  const named = readSongList("Title,Artist,Key\nMarzipan Diesel,Six Spare Fuses,D");
  expect(named.songs).toEqual([song(2, "Marzipan Diesel", { key: "D" })]);
  expect(named.problems.map(({ kind, line, column }) => [kind, line, column])).toEqual([
    ["ignored", 1, "Artist"],
  ]);
  const unnamed = readSongList("Marzipan Diesel;Six Spare Fuses;D\nTollbooth Cinnamon;Six Spare Fuses;A");
  expect(unnamed.songs.map(({ key }) => key)).toEqual(["D", "A"]);
  expect(unnamed.problems.map(({ message }) => message)).toEqual([
    "Line 1, column 2: this column is left out: the list takes title, key, tempo, length and the columns of a saved repertoire, each once.",
  ]);
});

test("sixty songs pasted from a spreadsheet arrive as sixty songs", () => {
  const rows = Array.from(
    { length: 60 },
    (_, n) => `Invented Song No ${n + 1}\tEm\t${90 + n}\t3:${10 + (n % 50)}`,
  );
  const { songs, problems } = readSongList(`Title\tKey\tTempo\tLength\r\n${rows.join("\r\n")}\r\n`);
  expect(problems).toEqual([]);
  expect(songs).toHaveLength(60);
  expect(songs[59]).toEqual(song(61, "Invented Song No 60", { key: "Em", tempo: 149, length: 199 }));
});

test("wrong cells are named with line, column and remedy, and their songs are kept without them", () => {
  const text = [
    "title,key,tempo,length",
    "One,H,0,3:00",
    "Two,Em,-3,long",
    "Three,Em,fast,3.45",
    "Four,-,?,",
  ].join("\n");
  const { songs } = readSongList(text);
  expect(songs.map(({ title, tempo, length }) => [title, tempo, length])).toEqual([
    ["One", null, 180],
    ["Two", null, null],
    ["Three", null, null],
    ["Four", null, null],
  ]);
  expect(messages(text)).toEqual([
    'Line 2, key: "H" starts with H: in English names that note is B. Write a letter from A to G, then # or b, then m for minor: Em, F#m, Bb.',
    "Line 2, tempo: A tempo of 0 cannot be counted. Give beats per minute as a number from 20 to 400.",
    "Line 3, tempo: A tempo of -3 cannot be counted. Give beats per minute as a number from 20 to 400.",
    'Line 3, length: "long" is not a length. Write minutes and seconds as 3:45.',
    'Line 4, tempo: "fast" is not a tempo. Give beats per minute as a number from 20 to 400.',
    'Line 4, length: "3.45" is not a length. Did you mean 3:45?',
  ]);
});

test("what else a table says of a song is read, and a cell that says nothing of the kind is named", () => {
  const text = [
    "Title,Stage,Metre,Capo,Energy,Form,Ready on 2026-04-18 (%)",
    'Marzipan Diesel,In the Book,3+2+2/8,2,4,"Intro 8, V1 16",62',
    "Tollbooth Cinnamon,famous,4/5,13,9,Intro,",
  ].join("\n");
  const { songs, problems } = readSongList(text);
  expect(songs.map(({ title, further }) => [title, further])).toEqual([
    [
      "Marzipan Diesel",
      {
        stage: "in the book",
        metre: "3+2+2/8",
        capo: 2,
        energy: 4,
        form: [
          { name: "Intro", bars: 8 },
          { name: "V1", bars: 16 },
        ],
      },
    ],
    ["Tollbooth Cinnamon", undefined],
  ]);
  expect(problems.map(({ message }) => message)).toEqual([
    "Line 3, stage: this is no stage. Write one of candidate, learning, in the book, resting.",
    'Line 3, metre: "4/5" is not a metre. Write it as 4/4, 3/4, 6/8 or 3+2+2/8.',
    "Line 3, energy: energy is a whole number from 1 to 5.",
    "Line 3, capo: a capo is a fret from 0 to 12.",
    "Line 3, form: Part 1, “Intro”: say how many bars it has, as in “Intro 8”.",
  ]);
});

test("a title that is missing or endless costs its own line only", () => {
  const text = `title,key\n,Em\n${"x".repeat(10_000)},D\nMarzipan Diesel,D`;
  expect(titles(text)).toEqual(["Marzipan Diesel"]);
  expect(messages(text)).toEqual([
    "Line 2, title: the title is missing. Write one or take the line out.",
    `Line 3, title: "${"x".repeat(40)}…" has 10000 characters. Shorten the title to at most 200.`,
  ]);
});

test("a quotation mark without its partner costs its own line only", () => {
  const text = 'title,key\n"Marzipan Diesel,D\nTollbooth Cinnamon,A\n"Low ""Tide""",C';
  expect(titles(text)).toEqual(["Tollbooth Cinnamon", 'Low "Tide"']);
  expect(messages(text)).toEqual([
    "Line 2: a quotation mark is opened and never closed. Close it or take it out.",
  ]);
  expect(titles('"Tea, Rain"\n7" Single\n"Wait" said the Tram\n"Open')).toEqual([
    "Tea, Rain",
    '7" Single',
    '"Wait" said the Tram',
  ]);
});

test("duplicates are kept and marked, in the list and against the band's songs", () => {
  const { songs, problems } = readSongList("Café Ampère\nMarzipan Diesel\ncafe  ampere", ["MARZIPAN DIESEL"]);
  expect(songs.map(({ duplicate }) => duplicate)).toEqual([false, true, true]);
  expect(problems.map(({ kind, line, message }) => [kind, line, message])).toEqual([
    [
      "duplicate",
      2,
      'Line 2, title: "Marzipan Diesel" comes twice: the band already has it. Keep both or skip this one.',
    ],
    [
      "duplicate",
      3,
      'Line 3, title: "cafe ampere" comes twice: line 1 has it too. Keep both or skip this one.',
    ],
  ]);
});

test("characters that are no text are taken out and named; another encoding is refused as a whole", () => {
  expect(readSongList("Marzipan\0 Diesel\nTollbooth Cinnamon")).toMatchObject({
    songs: [{ title: "Marzipan Diesel" }, { title: "Tollbooth Cinnamon" }],
    problems: [{ kind: "characters", line: 1, column: "title" }],
  });
  const utf16 = [..."Marzipan Diesel"].map((c) => `${c}\0`).join("");
  expect(messages(utf16)).toEqual([
    "Line 1: this is not plain text. Save the table as CSV in UTF-8 and try again.",
  ]);
});

test("an empty list says what to paste", () => {
  for (const text of ["", " \n\t\r\n", "\ufeff", ",,\n,,", "Title,Key"]) {
    expect(messages(text), JSON.stringify(text)).toHaveLength(1);
    expect(titles(text)).toEqual([]);
  }
  expect(messages("")).toEqual(["Line 1: there is no song here yet. Write or paste one title per line."]);
});

test("a table without a title column says which column is missing", () => {
  expect(messages("key,tempo\nD,112")).toEqual([
    "Line 1: no column is called title, so no song has a name. Call one of them Title.",
  ]);
});

test("too many cells in a line point at the missing quotation marks", () => {
  const text = "title,key\nTea, Rain,D\nMarzipan Diesel,D,";
  expect(messages(text)).toContain(
    "Line 2: there are 3 cells for 2 columns. Put a title with a comma in quotation marks.",
  );
  expect(titles(text)).toEqual(["Tea", "Marzipan Diesel"]);
});

test("lists beyond the limits are read as far as they go", () => {
  const { songs, problems } = readSongList(Array.from({ length: 502 }, (_, n) => `Song ${n}`).join("\n"));
  expect(songs).toHaveLength(500);
  expect(problems.map(({ kind, line }) => [kind, line])).toEqual([["too many", 501]]);
  expect(messages("x".repeat(250_001))).toEqual([expect.stringContaining("Paste it in parts")]);
});
