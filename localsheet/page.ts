/** The engine's own page element, with our cell editor in it. */
import "./heading-letters.ts";
import { TypedComposer } from "./composer.ts";
import { type Model, engine } from "./engine.ts";
import { plain } from "./words.ts";

declare const owl: {
  Component: new () => { props: { model: Model }; env: object };
  xml(strings: TemplateStringsArray): string;
  mount(component: unknown, target: Element, config: object): Promise<unknown>;
};

/** The engine's page templates, from its own script. */
declare const engineTemplates: string;

/** The engine would ask another host for a picture beside each link. */
const LINK_PICTURE = /<img\b[^>]*\/favicons[^>]*>/;

const { CellComposerStore, ModelStore, useStoreProvider } = engine.stores;

let composer: TypedComposer | undefined;

/** The engine asks its stores for the editor: here they are given ours before it asks. */
class Page extends owl.Component {
  static template = owl.xml`<Spreadsheet t-props="props"/>`;
  static props = ["*"];
  static components = { Spreadsheet: engine.Spreadsheet };

  setup() {
    const stores = useStoreProvider();
    stores.inject(ModelStore, this.props.model);
    composer = stores.instantiate(TypedComposer);
    stores.inject(CellComposerStore, composer);
  }
}

export async function mountSheet(
  target: Element,
  props: { model: Model; [name: string]: unknown },
): Promise<void> {
  const templates = engineTemplates.replace(LINK_PICTURE, "");
  const page = { templates, env: {}, warnIfNoStaticProps: false };
  await owl.mount(Page, target, { ...page, props, translateFn: plain });
}

/** Puts what is being typed into its cell, as Enter would. */
export function finishTyping(): void {
  composer?.stopEdition();
}

/** Gives the keyboard to the sheet, so that figures, Ctrl+Z and the arrows mean its cells. */
export function focusSheet(): void {
  const editor = document.querySelector<HTMLElement>(".o-grid .o-composer");
  if (!editor) return;
  editor.focus();
  // A dialog gives the focus back, but not the caret, and without one no key arrives.
  if (!editor.contains(document.getSelection()?.anchorNode ?? null))
    document.getSelection()?.collapse(editor, 0);
}
