import { convert, ircRateTable, rateTable2013, requiredRateSi, tableRate } from '@countercheck/measurement';
import { figures } from '../run/figures.ts';
import type { Driver } from './index.ts';

/** The rates of one row of a table, for the numbers of bedrooms given; the IRC's table unless it says 2013. */
const ratesOfRow: Driver = ({ floorArea, bedrooms, table }) => {
  const from = table === '2013' ? rateTable2013 : ircRateTable;
  const counts = Array.isArray(bedrooms) ? bedrooms.map(Number) : [];
  return { rates: counts.map((count) => figures(tableRate(Number(floorArea), count, from))['value']) };
};

/** The whole-house rate by the SI form for a house given in ft², stated in cfm only to be compared. */
const rateBySi: Driver = ({ floorArea, bedrooms }) => {
  const square = convert(Number(floorArea), 'ft2', 'm2');
  const rate = requiredRateSi({ edition: '2013', floorArea: square, bedrooms: Number(bedrooms) });
  return { cfm: convert(Number(figures(rate)['value']), 'L/s', 'cfm') };
};

export const ventilations = { ratesOfRow, rateBySi };
