/** The pane in the theme of Office, where Office tells it; otherwise in that of the system. */

/** What the pane needs of Office: its theme, and to hear of another one. Both may be missing. */
interface Themed {
  officeTheme?: { bodyBackgroundColor?: string };
  document?: {
    addHandlerAsync?(event: unknown, heard: (told: { officeTheme?: object }) => void): void;
  };
}

/** Follows the theme of Office from now on; the event's name where this Office has one. */
export function followTheme(office: Themed, changed?: unknown): void {
  show(office.officeTheme);
  if (changed === undefined) return;
  try {
    office.document?.addHandlerAsync?.(changed, (told) =>
      show(told.officeTheme ?? office.officeTheme),
    );
  } catch {
    // Some hosts have the event's name and not the event: then the theme is that of the start.
  }
}

function show(theme?: Themed["officeTheme"]) {
  const isDark = darkness(theme?.bodyBackgroundColor);
  if (isDark === undefined) delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = isDark ? "dark" : "light";
}

/** True for a dark ground, such as #1F1F1F; undefined where no colour is told. */
export function darkness(color?: string): boolean | undefined {
  const found = /^#?([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(color ?? "");
  if (!found) return undefined;
  const [red = 0, green = 0, blue = 0] = found.slice(1).map((part) => Number.parseInt(part, 16));
  // As light as an eye sees it: Rec. ITU-R BT.601.
  return 0.299 * red + 0.587 * green + 0.114 * blue < 128;
}
