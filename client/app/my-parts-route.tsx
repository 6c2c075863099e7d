import { MyPartsScreen } from "#client/features/my-parts/my-parts-screen.tsx";
import { WhileOutLine } from "./while-out-slot.tsx";

/** A member's parts, with the way to what changed since they were here. */
export const MyPartsRoute = () => <MyPartsScreen news={<WhileOutLine />} />;
