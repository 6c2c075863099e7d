import { OrderScreen } from "#client/features/running-order/order-screen.tsx";
import type { ScreenProps } from "./screen.tsx";

/** A gig's running order. */
export const OrderRoute = ({ params: { gig = "" } }: ScreenProps) => <OrderScreen gig={gig} />;
