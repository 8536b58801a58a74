export declare const nodeFlags: readonly string[];
