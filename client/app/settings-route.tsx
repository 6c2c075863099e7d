import { SettingsScreen } from "#client/features/settings/settings-screen.tsx";
import { KeptHere } from "./kept-here.tsx";

/** Everything about a board and this device that is set seldom. */
export const SettingsRoute = () => <SettingsScreen kept={<KeptHere />} />;
