import type { DeviceInfo, Link, SeasonInfo } from "#shared/protocol/api.ts";

const MINUTE = 60_000;
const DAY = 86_400_000;

/** Links of the demo band: an open one, one that is over, a personal one, a dep's. */
export const fakeLinks = (now: number): readonly Link[] => {
  const anybody = { maxUses: null, uses: 0, memberId: null, gig: null, revokedAt: null };
  return [
    {
      id: "link-1",
      role: "member",
      label: "for the band",
      createdAt: now - 20 * DAY,
      expiresAt: now + 10 * DAY,
      ...anybody,
      uses: 5,
    },
    {
      id: "link-2",
      role: "guest",
      label: "",
      createdAt: now - 60 * DAY,
      expiresAt: now - 30 * DAY,
      ...anybody,
    },
    {
      id: "link-3",
      role: "member",
      label: "Priya's tablet",
      createdAt: now - 2 * DAY,
      expiresAt: now + 5 * DAY,
      ...anybody,
      maxUses: 1,
      memberId: "demo-priya",
    },
    {
      id: "link-4",
      role: "dep",
      label: "",
      createdAt: now - DAY,
      expiresAt: now + 10 * DAY,
      ...anybody,
      uses: 1,
      memberId: "demo-karim",
      gig: "demo-gig-slot",
    },
  ];
};

/** Devices of the demo band; the first is the one that asks. */
export const fakeDevices = (now: number): readonly DeviceInfo[] => {
  const device = (id: string, more: Partial<DeviceInfo>): DeviceInfo => ({
    id,
    role: "member",
    memberId: null,
    name: "Phone, Firefox",
    createdAt: now - 19 * DAY,
    lastSeenAt: now - 3 * DAY,
    expiresAt: null,
    link: "link-1",
    confirmed: true,
    own: false,
    here: false,
    ...more,
  });
  return [
    device("device-1", {
      role: "leader",
      memberId: "demo-tomasz",
      name: "Computer, Firefox",
      createdAt: now - 70 * DAY,
      lastSeenAt: now,
      link: null,
      own: true,
      here: true,
    }),
    device("device-2", { memberId: "demo-lucia", lastSeenAt: now - 4 * MINUTE, here: true }),
    device("device-3", { memberId: "demo-priya", name: "Phone, Safari" }),
    device("device-4", {
      memberId: "demo-priya",
      name: "Tablet, Chromium",
      confirmed: false,
      createdAt: now - DAY,
    }),
    device("device-5", { name: "", lastSeenAt: null, confirmed: false }),
    device("device-6", {
      role: "dep",
      memberId: "demo-karim",
      createdAt: now - DAY,
      expiresAt: now + 10 * DAY,
      link: "link-4",
    }),
  ];
};

/** A season that was closed, and the one that is open. */
export const fakeSeasons = (now: number): readonly SeasonInfo[] => [
  {
    document: "demo",
    season: 1,
    openedAt: now - 400 * DAY,
    closedAt: now - 70 * DAY,
    bytes: 412_600,
    archivedBytes: 1_903_400,
  },
  {
    document: "demo-2",
    season: 2,
    openedAt: now - 70 * DAY,
    closedAt: null,
    bytes: 238_900,
    archivedBytes: 640_200,
  },
];
