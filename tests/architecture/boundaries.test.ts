import { describe, expect, test } from "vitest";
import { sourceFiles } from "#tests/support/source-files.ts";
import { crossings, cycles } from "./boundaries.ts";

const files = sourceFiles("shared-model", "client", "server");

describe("[HOUSE-1] import boundaries", () => {
  test("no file crosses a boundary", () => {
    expect(crossings(files)).toEqual([]);
  });

  test("no import cycles", () => {
    expect(cycles(files)).toEqual([]);
  });

  test.each([
    ["shared-model/readiness/x.ts", 'import * as Y from "yjs";'],
    ["shared-model/commands/x.ts", 'import { readFileSync } from "node:fs";'],
    ["shared-model/board/x.ts", 'import { readBoard } from "#shared/document/read/board-reader.ts";'],
    ["client/features/board/x.tsx", 'import { PartPanel } from "#client/features/part/part-panel.tsx";'],
    ["client/features/board/x.tsx", 'import { PartPanel } from "../part/part-panel.tsx";'],
    ["client/features/board/x.tsx", 'const load = () => import("yjs");'],
    ["client/ui/x.tsx", 'import { partView } from "#shared/selectors/part-view.ts";'],
    ["client/store/x.ts", 'import { App } from "#client/app/app.tsx";'],
    ["client/sync/x.ts", 'import { useState } from "react";'],
    ["client/sound/x.ts", 'import { useBand } from "#client/store/hooks.ts";'],
    ["client/app/x.tsx", 'import { createStorage } from "#server/storage/storage.ts";'],
    ["server/x.ts", 'import { App } from "#client/app/app.tsx";'],
  ])("a planted violation in %s is caught: %s", (path, text) => {
    expect(crossings([{ path, text }])).toHaveLength(1);
  });

  test("a planted cycle is caught", () => {
    const planted = [
      { path: "server/a.ts", text: 'import { b } from "./b.ts";' },
      { path: "server/b.ts", text: 'import { a } from "./a.ts";' },
    ];
    expect(cycles(planted)).toHaveLength(1);
  });
});
