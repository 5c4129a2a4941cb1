export interface Lock {
  readonly packages: Readonly<
    Record<
      string,
      {
        readonly version?: string;
        readonly optional?: boolean;
        readonly devOptional?: boolean;
        readonly dev?: boolean;
      }
    >
  >;
}
export declare function nodeIsNewEnough(version: string): boolean;
export declare function firstStalePackage(
  lock: Lock,
  installed: Lock | null,
  withDevelopment: boolean,
): string | null;
export declare function sourcesHash(folder: string, sources?: readonly string[]): string;
export declare function buildServer(): void;
