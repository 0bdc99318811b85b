/** A sortie profile: whose it is, and with what reserve it comes home. Its steps are edited in the Craft view. */
import type { FormProps } from "../editing/editing.ts";
import type { Profile } from "../../app/entity/profile.ts";
import { useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { FormSection, StatedRow } from "../widgets/form-row.tsx";
import { EditChoice, EditNote, EditText, choicesOf } from "../editing/bound-fields.tsx";
import { ReserveFields } from "./reserve-fields.tsx";
import { SiteFields } from "./site-fields.tsx";

export const ProfileForm = ({ edit }: FormProps<Profile>) => {
  const session = useSession();
  const { value, plan } = edit;
  const described = plan.craftClasses.filter(({ lander }) => lander !== null);
  return (
    <>
      <EditText edit={edit} field="name" label="Name" isRequired />
      <EditChoice edit={edit} field="classId" label="Flown by" choices={choicesOf(described)} />
      <FormSection title="Steps">
        <StatedRow label="Steps">{value.steps.length}</StatedRow>
        {!edit.isNew && (
          <Button
            look="link"
            onPress={() => {
              session.select({ kind: "profile", id: value.id });
              session.show("craft");
            }}
          >
            Edit them in Craft
          </Button>
        )}
      </FormSection>
      <ReserveFields edit={edit} />
      <SiteFields edit={edit} />
      <EditNote edit={edit} field="note" label="Note" />
    </>
  );
};
