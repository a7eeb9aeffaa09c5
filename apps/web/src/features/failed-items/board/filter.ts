/** The filters of the board as they stand in the address. */
export type BoardFilter = Partial<Record<'from' | 'to' | 'builderId' | 'trade' | 'item', string>>;
