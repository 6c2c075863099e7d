/** What a section has of its own while nobody has said anything but its bars. */
export const PLAIN_SECTION = { repeats: 1, metre: "", tempo: null, key: "" } as const;
