/** Beginning of the key of what is told by another way in place of a message. */
export const insteadKeyOf = (messageId: string): string => `instead:${messageId}:`;
