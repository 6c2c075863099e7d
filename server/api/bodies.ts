/** What the bodies of requests must look like. Strict: a field nobody asked for is refused, not passed over. */
import * as v from "valibot";
import { isId } from "#shared/board/ids.ts";
import { ROLES } from "#shared/protocol/api.ts";

const NAME_MAX = 200;
const LABEL_MAX = 200;
const DEVICE_NAME_MAX = 80;
const USES_MAX = 1000;

const id = v.custom<string>(isId);
const moment = v.pipe(v.number(), v.safeInteger(), v.minValue(0));
const boardName = v.pipe(v.string(), v.trim(), v.minLength(1), v.maxLength(NAME_MAX));
/** One line: no control or formatting characters, which could make one device look like another. */
const deviceName = v.pipe(
  v.string(),
  v.maxLength(4 * DEVICE_NAME_MAX),
  v.transform((name) => name.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu, "").trim()),
  v.maxLength(DEVICE_NAME_MAX),
);

export const ARRIVAL = v.strictObject({ deviceName: v.optional(deviceName) });
export const CREATE_BOARD = v.strictObject({ name: boardName, deviceName: v.optional(deviceName) });
export const BIND_MEMBER = v.strictObject({ memberId: id });
export const CREATE_LINK = v.strictObject({
  role: v.picklist(ROLES),
  expiresAt: v.optional(moment),
  label: v.optional(v.pipe(v.string(), v.maxLength(LABEL_MAX))),
  maxUses: v.optional(v.pipe(v.number(), v.safeInteger(), v.minValue(1), v.maxValue(USES_MAX))),
  memberId: v.optional(id),
  gig: v.optional(id),
});
export const CHANGE_DEVICE = v.strictObject({
  role: v.optional(v.picklist(ROLES)),
  confirmed: v.optional(v.boolean()),
  name: v.optional(deviceName),
});
export const SET_PRIVATE = v.strictObject({ value: v.unknown() });
export const CLOSE_SEASON = v.strictObject({ document: id });
/** Yjs draws its client ids from 32 bits. */
const client = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(0xffff_ffff));
export const ASK_DURABLE = v.strictObject({ clients: v.pipe(v.array(client), v.maxLength(1000)) });
export const ERASE_BOARD = v.strictObject({ name: v.pipe(v.string(), v.maxLength(NAME_MAX)) });
