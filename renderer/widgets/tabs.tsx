/** Sheets one behind another, by their names. */
import type { ReactNode } from "react";
import { Tab, TabList, TabPanel, Tabs as AriaTabs } from "react-aria-components";
import "./tabs.css";

export interface Sheet {
  readonly id: string;
  readonly title: string;
  readonly content: ReactNode;
}

interface TabsProps {
  readonly label: string;
  readonly sheets: readonly Sheet[];
  readonly shown?: string;
  readonly onShow?: (id: string) => void;
}

export const Tabs = ({ label, sheets, shown, onShow }: TabsProps) => (
  <AriaTabs
    className="tabs"
    {...(shown === undefined ? {} : { selectedKey: shown })}
    {...(onShow === undefined ? {} : { onSelectionChange: (key) => onShow(String(key)) })}
  >
    <TabList aria-label={label} className="tab-list">
      {sheets.map((sheet) => (
        <Tab key={sheet.id} id={sheet.id} className="tab">
          {sheet.title}
        </Tab>
      ))}
    </TabList>
    {sheets.map((sheet) => (
      <TabPanel key={sheet.id} id={sheet.id} className="tab-panel">
        {sheet.content}
      </TabPanel>
    ))}
  </AriaTabs>
);
