/** Events of the browser host. The browser connects again by itself; the host then says where the ledger stands. */
import type { Bridge, BridgeEventName } from "../../app/contract/bridge.ts";
import { fromTypedJson } from "../../app/contract/typed-json.ts";

export const listenTo = (address: string): Bridge["on"] => {
  let source: EventSource | null = null;
  return (event: BridgeEventName, listener: (payload: never) => void) => {
    source ??= new EventSource(address);
    const stream = source;
    const hear = (message: MessageEvent<string>): void => listener(fromTypedJson(message.data) as never);
    stream.addEventListener(event, hear);
    return () => stream.removeEventListener(event, hear);
  };
};
