/** A file's own text, as webpack gives it. */
declare module "*?source" {
  const text: string;
  export default text;
}
