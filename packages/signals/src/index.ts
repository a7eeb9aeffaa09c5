/** Whether readings can be believed: documented statistical tests and control charts. */
export {};
