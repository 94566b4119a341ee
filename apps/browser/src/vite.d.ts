/** The part of Vite's module interface that is used here. */
interface ImportMeta {
  readonly glob: {
    <T>(pattern: string, options: { eager: true; query: string; import: string }): Record<string, T>;
    <T>(pattern: string): Record<string, () => Promise<T>>;
  };
  readonly env: { readonly PROD: boolean; readonly BASE_URL: string };
}

/** Class names of a CSS module by their name in the file. */
declare module '*.module.css' {
  const classes: Readonly<Record<string, string>>;
  export default classes;
}

declare module '*.css';
