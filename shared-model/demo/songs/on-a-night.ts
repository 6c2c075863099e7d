/** What each song of the demo is good for on a night. */
import type { FloorRole, StrongPlace } from "../../board/song.ts";
import type { SongCode } from "../demo-data.ts";

export interface OnANight {
  /** 1 to 5. */
  readonly energy: number;
  readonly floor: FloorRole;
  readonly strong?: StrongPlace;
  readonly hardToSing?: true;
  readonly rig?: string;
}

export const ON_A_NIGHT: Readonly<Partial<Record<SongCode, OnANight>>> = {
  MD: { energy: 4, floor: "fills", strong: "opener" },
  TC: { energy: 3, floor: "holds" },
  LT: { energy: 1, floor: "slow", rig: "acoustic guitar" },
  UT: { energy: 5, floor: "fills", strong: "closer", hardToSing: true },
  WA: { energy: 4, floor: "fills" },
  LO: { energy: 2, floor: "slow", hardToSing: true },
  RW: { energy: 4, floor: "holds", strong: "opener" },
  EE: { energy: 4, floor: "fills" },
  QP: { energy: 4, floor: "fills", hardToSing: true },
  NW: { energy: 3, floor: "holds" },
  GL: { energy: 2, floor: "slow", strong: "closer" },
  PP: { energy: 4, floor: "fills" },
  BL: { energy: 2, floor: "seated" },
  SB: { energy: 5, floor: "fills", strong: "both", hardToSing: true },
  VB: { energy: 2, floor: "slow", hardToSing: true },
  CT: { energy: 5, floor: "fills", strong: "closer" },
  FL: { energy: 3, floor: "holds", rig: "acoustic guitar" },
};
