/** What Coldstock is, and the caution. */
import { CAUTION } from "../../app/words/caution.ts";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { BuiltInList } from "./built-in-list.tsx";

export const AboutDialog = ({ close }: DialogProps) => (
  <Dialog title="About Coldstock and its limits" onClose={close}>
    <p>
      Coldstock plans the supply of a reusable lander from an orbital propellant depot. It keeps one ledger of what is
      in the tanks and why, computes in closed form what will be in them, and says for every sortie whether the lander
      will be fuelled.
    </p>
    <p>
      A forecast is as good as what it rests on: loss rates, loads and dates as they stand in the ledger. Select a tank,
      a flight or a sortie to see where each comes from.
    </p>
    <p>{CAUTION}</p>
    <p>
      Coldstock itself is under the Apache licence, version 2.0; the desktop runtime brings its own notices beside it.
    </p>
    <BuiltInList />
  </Dialog>
);
