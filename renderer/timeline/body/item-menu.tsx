/** What can be done with an item, a level chart or the timeline, at the place where it was asked for. */
import type { ActionId } from "../../../app/contract/actions.ts";
import { ActionMenu } from "../../actions/action-menu.tsx";
import { chartActions } from "../../plot/chart-place.tsx";
import { useSession } from "../../state/use-session.ts";

export interface MenuAsked {
  readonly kind: "flight" | "sortie" | "chart";
  readonly x: number;
  readonly y: number;
}

const offered: Readonly<Record<MenuAsked["kind"], readonly ActionId[]>> = {
  flight: ["record.departure", "record.arrival", "record.loss", "edit.duplicate", "edit.delete", "chart.copy"],
  sortie: ["record.loading", "record.return", "edit.duplicate", "edit.delete", "chart.copy"],
  chart: chartActions,
};

export const ItemMenu = ({ asked, close }: { asked: MenuAsked; close: () => void }) => {
  const { platform } = useSession().client.host;
  return <ActionMenu label="What can be done" ids={offered[asked.kind]} platform={platform} at={asked} close={close} />;
};
