import { type CommandCase, diesel, gone, invalid } from "./case.ts";

const full = [{ bar: 1, pass: null, presence: "full" }];
const cell = { section: "verse", chair: "drums", changes: full };

export const TEXTURE_CASES: Readonly<Record<string, CommandCase>> = {
  paintTexture: {
    args: {
      song: "diesel",
      source: "ours",
      cells: [
        cell,
        {
          section: "verse",
          chair: "bass",
          changes: [
            { bar: 5, pass: 2, presence: "full" },
            { bar: 5, pass: null, presence: "light" },
            { bar: 3, pass: null, presence: "rest" },
            { bar: 5, pass: null, presence: "play" },
          ],
        },
      ],
    },
    says: (board) => [...(diesel(board)?.textures ?? [])],
    expected: [
      [
        "verse/bass/ours",
        [
          { bar: 3, pass: null, presence: "rest" },
          { bar: 5, pass: null, presence: "play" },
          { bar: 5, pass: 2, presence: "full" },
        ],
      ],
      ["verse/drums/ours", full],
    ],
    refused: [
      gone({ song: "kettle", source: "ours", cells: [cell] }),
      gone({ song: "diesel", source: "ours", cells: [{ ...cell, section: "coda" }] }),
      gone({ song: "diesel", source: "ours", cells: [cell, { ...cell, chair: "organ" }] }),
      invalid({ song: "diesel", source: "ours", cells: [] }),
      invalid({ song: "diesel", source: "heard", cells: [cell] }),
      invalid({
        song: "diesel",
        source: "ours",
        cells: [{ ...cell, changes: [{ bar: 1, pass: null, presence: "loud" }] }],
      }),
      invalid({
        song: "diesel",
        source: "ours",
        cells: [{ ...cell, changes: [{ bar: 9, pass: null, presence: "full" }] }],
      }),
    ],
  },
  dismissHint: {
    args: { song: "diesel", hint: "narrow", dismissed: true },
    says: (board) => [...(diesel(board)?.dismissed ?? [])],
    expected: ["narrow"],
    refused: [
      gone({ song: "kettle", hint: "narrow", dismissed: true }),
      invalid({ song: "diesel", hint: "no/lift", dismissed: true }),
    ],
  },
};
