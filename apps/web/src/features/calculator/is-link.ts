/** Whether the end of an address means to be such a link, readable or not. */
export const isLink = (hash: string) => /^\d+\./.test(hash);
