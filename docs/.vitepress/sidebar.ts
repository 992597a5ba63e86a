/** The way through the site: every page of docs is in it (tests/site.long.test.ts). */
import type { DefaultTheme } from "vitepress";
import { catalog } from "../../functions/catalog/catalog.ts";
import { TOPICS, TOPIC_TITLES } from "../../functions/catalog/topics.ts";
import { templates } from "../../taskpane/templates/index.ts";

export const ALL_SHEETS = "/sheets/README";
export const ALL_FUNCTIONS = "/reference/README";

const sheets = [...templates]
  .sort((a, b) => a.step - b.step)
  .map(({ title }) => ({
    text: title,
    link: `/sheets/${title.toLowerCase().replaceAll(" ", "-")}`,
  }));

const functionsOf = (topic: string) =>
  catalog
    .filter((entry) => entry.topic === topic)
    .map(({ id }) => ({ text: id, link: `/reference/${id.toLowerCase()}` }));

export const sidebar: DefaultTheme.SidebarItem[] = [
  {
    text: "Begin",
    items: [
      { text: "What it is", link: "/" },
      { text: "How to get it", link: "/get-it" },
      { text: "First batch in ten minutes", link: "/first-batch" },
      { text: "One workbook", link: "/one-workbook" },
      { text: "My own sheet", link: "/my-own-sheet" },
    ],
  },
  {
    text: "Guides",
    items: [
      { text: "Choosing a base", link: "/choosing-a-base" },
      { text: "Pricing", link: "/pricing" },
      { text: "Trials of scent", link: "/trials" },
      { text: "Units and densities", link: "/units" },
      { text: "Alcohol", link: "/alcohol" },
      { text: "Limits", link: "/limits" },
      { text: "Blanks and errors", link: "/errors" },
      { text: "Sharing a workbook", link: "/sharing" },
    ],
  },
  {
    text: "Sheets",
    collapsed: true,
    items: [{ text: "All sheets", link: ALL_SHEETS }, ...sheets],
  },
  {
    text: "Functions",
    items: [
      { text: "All functions", link: ALL_FUNCTIONS },
      ...TOPICS.map((topic) => ({
        text: TOPIC_TITLES[topic],
        collapsed: true,
        items: functionsOf(topic),
      })),
    ],
  },
  {
    text: "More",
    items: [
      { text: "Help", link: "/support" },
      { text: "Your data", link: "/privacy" },
      { text: "What runs where", link: "/hosts" },
      { text: "Without a spreadsheet", link: "/package" },
    ],
  },
];
