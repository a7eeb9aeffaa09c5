import { importColumns } from '@countercheck/contracts';

/** An empty file with the columns that can be loaded, in their order. */
const templateCsv = `${importColumns.join(',')}\r\n`;

export const templateUrl = () => `data:text/csv;charset=utf-8,${encodeURIComponent(templateCsv)}`;

export const columnHelp: Record<(typeof importColumns)[number], string> = {
  lot: 'needed',
  address: 'needed',
  community: 'needed; the name as registered with the builder',
  plan: "a plan's name; fills in what is left empty, and the parts",
  climate_zone: "empty = the community's",
  floor_area_ft2: "empty = the plan's",
  volume_ft3: "empty = the plan's",
  bedrooms: "empty = the plan's",
  designed_ventilation_cfm: "empty = the plan's",
  note: 'anything',
};
