/** The page kept in the browser, where it is served: it opens without a network, and can be installed. */

/** False while one works on the page, which is then always the newest. */
declare const MISTWRIGHT_KEEPS_PAGE: boolean;

/** Says when a newer version is there, with what takes it. */
export async function keepPage(tell: (take: () => void) => void): Promise<void> {
  const isServed = location.protocol.startsWith("http");
  if (!MISTWRIGHT_KEEPS_PAGE || !isServed || !("serviceWorker" in navigator)) return;
  const manifest = document.createElement("link");
  manifest.rel = "manifest";
  manifest.href = "app.webmanifest";
  document.head.append(manifest);
  const workers = navigator.serviceWorker;
  const registration = await workers.register("worker.js");
  const look = () => {
    const { waiting } = registration;
    if (!waiting || !workers.controller) return;
    tell(() => {
      workers.addEventListener("controllerchange", () => location.reload());
      waiting.postMessage({ type: "SKIP_WAITING" });
    });
  };
  look();
  registration.addEventListener("updatefound", () =>
    registration.installing?.addEventListener("statechange", look),
  );
}
