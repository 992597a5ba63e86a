/** The address that a host serves the add-in from. */

/** The address that the manifest and the list of functions have while one works on them. */
const OURS = "https://localhost:3000";

/** Why an address cannot serve the add-in, in words; null where it can. */
export function refusalOf(address: string): string | null {
  const url = URL.canParse(address) ? new URL(address) : null;
  if (url?.protocol !== "https:")
    return `Excel loads add-ins over https alone, got "${address}": give an address that begins with https://`;
  if (url.search || url.hash)
    return `the address of the folder has no ? and no #, got "${address}": leave them out`;
  if (/\.\w+$/.test(url.pathname))
    return `give the address of the folder, not of a file in it, got "${address}"`;
  return null;
}

/** A manifest or a list of functions, for the add-in at this address. */
export function at(address: string, text: string): string {
  return text.replaceAll(OURS, new URL(address).href.replace(/\/$/, ""));
}
