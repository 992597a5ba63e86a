import type { Theme } from "vitepress";
import theme from "vitepress/theme-without-fonts";
import "./colours.css";
import Enlarged from "./Enlarged.vue";

export default {
  extends: theme,
  enhanceApp({ app }) {
    app.component("Enlarged", Enlarged);
  },
} satisfies Theme;
