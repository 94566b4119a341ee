/** A file as a text in a chunk of its own. */
declare module '*?raw' {
  const text: string;
  export default text;
}
