/** The part of Vite's module interface that is used here. */
interface ImportMeta {
  readonly glob: <T>(pattern: string, options: { eager: true; query: string; import: string }) => Record<string, T>;
}
