export declare const CHROMIUM_FLAGS: string[];
export declare function findChromium(env?: Readonly<Record<string, string | undefined>>): string | null;
