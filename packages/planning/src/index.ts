/** Who goes where in which order: routes of raters with time windows. */
export {};
