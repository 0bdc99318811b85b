/** The frame of every field: its label at the left, the control on a ruled line, under it what is wrong or may be typed. */
import type { ReactNode } from "react";
import { Text } from "react-aria-components";
import "./form-row.css";

export interface FieldWords {
  readonly label: string;
  /** Where the value comes from when nobody stated it: "the class says 24.0 t". */
  readonly origin?: string | null;
  /** What is wrong, in words; shown in place of everything else. */
  readonly fault?: string | null;
  /** What can be so and is hardly meant, in words: a question to whoever typed it, which keeps nothing from being taken. */
  readonly caution?: string | null;
}

interface FormRowProps extends FieldWords {
  readonly isLabelled?: boolean;
  /** The range and whatever else helps while typing; shown while the focus is inside. */
  readonly hint?: string | null;
  readonly children: ReactNode;
}

/** The line under a control. Lives inside a react-aria field, which ties it to the input for screen readers. */
export const FieldLine = ({
  hint,
  origin,
  fault,
  caution,
}: Pick<FormRowProps, "hint" | "origin" | "fault" | "caution">) => {
  if (fault !== undefined && fault !== null)
    return (
      <Text slot="description" className="field-line field-fault" role="alert">
        {fault}
      </Text>
    );
  if (caution !== undefined && caution !== null)
    return (
      <Text slot="description" className="field-line field-caution">
        {caution}
      </Text>
    );
  if ((hint ?? origin ?? null) === null) return null;
  return (
    <Text slot="description" className="field-line">
      {hint !== undefined && hint !== null && <span className="field-hint">{hint}</span>}
      {origin !== undefined && origin !== null && <span className="field-origin">{origin}</span>}
    </Text>
  );
};

/** What is shown but not edited, in the same grid. */
export const StatedRow = ({ label, children, title }: { label: string; children: ReactNode; title?: string }) => (
  <div className="form-row stated-row" title={title}>
    <span className="field-label">{label}</span>
    <span className="stated-value">{children}</span>
  </div>
);

interface FormSectionProps {
  readonly title: string;
  readonly children: ReactNode;
  readonly aside?: ReactNode;
  /** Rank of the heading: the second right under a view's title, the third in an inspector or a dialog. */
  readonly rank?: "h2" | "h3";
}

/** A group of rows under a small heading. */
export const FormSection = ({ title, children, aside, rank: Heading = "h3" }: FormSectionProps) => (
  <section className="form-section" aria-label={title}>
    <header className="form-section-head">
      <Heading>{title}</Heading>
      {aside}
    </header>
    {children}
  </section>
);
