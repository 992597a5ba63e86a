export declare function helpPage(markdown: string | Uint8Array): string;
