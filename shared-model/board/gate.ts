/** The six questions between a song and the stage, in the order they are asked. */
export const GATES = ["settled", "covered", "details", "together", "slips", "debut"] as const;
export type GateName = (typeof GATES)[number];
