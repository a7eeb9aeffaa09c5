/**
 * Factors for moving ranges of two: the mean range of two values of a normal distribution in standard deviations (d2),
 * that range's own standard deviation (d3), and the upper limit of a range in mean ranges, D4 = 1 + 3 d3 ÷ d2.
 * Source: tables of control-chart constants, from memory; d2 = 2 ÷ √π and d3 = √(2 − 4 ÷ π) hold exactly for two
 * values and are worked out anew in the tests, where d2 to d10 are also held against the integral they come from.
 */
export const d2 = 1.128379167;
export const d3 = 0.8525024664;
export const d4 = 3.266531919;
