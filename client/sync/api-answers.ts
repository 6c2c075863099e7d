/** What the server's answers must look like to be taken in. */
import * as v from "valibot";
import { ROLES } from "#shared/protocol/api.ts";
import { decodeHistoryRows, type SentRow } from "#shared/protocol/history-rows.ts";

const role = v.picklist(ROLES);
const moment = v.nullable(v.number());
const idOrNone = v.nullable(v.string());

const grantEntries = {
  board: v.string(),
  document: v.string(),
  token: v.string(),
  role,
  boardName: v.string(),
  memberId: idOrNone,
  expiresAt: moment,
};
export const GRANT = v.object(grantEntries);
export const NEW_GRANT = v.object({ ...grantEntries, recoveryCode: v.string() });
export const RECOVERY_CODE = v.object({ recoveryCode: v.string() });

export const SESSION = v.object({
  board: v.string(),
  document: v.string(),
  season: v.number(),
  device: v.string(),
  role,
  memberId: idOrNone,
  name: v.string(),
  confirmed: v.boolean(),
  expiresAt: moment,
});

export const NEW_LINK = v.object({ id: v.string(), board: v.string(), secret: v.string(), role });
export const LINK_LIST = v.object({
  links: v.array(
    v.object({
      id: v.string(),
      role,
      label: v.string(),
      createdAt: v.number(),
      expiresAt: moment,
      revokedAt: moment,
      maxUses: v.nullable(v.number()),
      uses: v.number(),
      memberId: idOrNone,
      gig: idOrNone,
    }),
  ),
});

export const DEVICE = v.object({
  id: v.string(),
  role,
  memberId: idOrNone,
  name: v.string(),
  createdAt: v.number(),
  lastSeenAt: moment,
  expiresAt: moment,
  link: idOrNone,
  confirmed: v.boolean(),
  own: v.boolean(),
  here: v.boolean(),
});
export const DEVICE_LIST = v.object({ devices: v.array(DEVICE) });

export const PRIVATE_VALUES = v.object({
  values: v.array(v.object({ key: v.string(), value: v.unknown(), at: v.number() })),
});

export const SEASON_LIST = v.object({
  seasons: v.array(
    v.object({
      document: v.string(),
      season: v.number(),
      openedAt: v.number(),
      closedAt: moment,
      bytes: v.number(),
      archivedBytes: v.number(),
    }),
  ),
});
export const SEASON_CLOSED = v.object({
  document: v.string(),
  season: v.number(),
  bytesBefore: v.number(),
  bytesAfter: v.number(),
});

export const DURABLE = v.object({
  clocks: v.array(v.object({ client: v.number(), clock: v.number() })),
});

export const HISTORY = v.pipe(
  v.instance(Uint8Array),
  v.transform((bytes): readonly SentRow[] | null => decodeHistoryRows(bytes)),
  v.nonNullable(v.custom<readonly SentRow[] | null>(() => true)),
);

export const NOTHING = v.pipe(
  v.unknown(),
  v.transform(() => null),
);
