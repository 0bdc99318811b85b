/** Keeps the desktop's native menu in step, and runs what is chosen there. */
import { useEffect } from "react";
import { useActions, useActionStates } from "../actions/use-actions.ts";
import { useSession } from "../state/use-session.ts";

export const NativeMenu = () => {
  const { client, tell } = useSession();
  const actions = useActions();
  const states = useActionStates();
  useEffect(() => client.host.showActions(states), [client, states]);
  useEffect(
    () =>
      client.on("action", ({ id }) => {
        if (!actions.run(id)) tell("information", actions.reasonOf(id) ?? "That cannot be done now.");
      }),
    [client, actions, tell],
  );
  return null;
};
