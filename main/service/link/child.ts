/** The service's process as a host sees it, whichever way it was started. */
import type { FromService, ToService } from "./wire.ts";

export interface Child {
  post(message: ToService): void;
  onMessage(listener: (message: FromService) => void): void;
  /** `code` null: ended by a signal. Tells at once if it has gone already. One listener. */
  onExit(listener: (code: number | null) => void): void;
  kill(): void;
}
