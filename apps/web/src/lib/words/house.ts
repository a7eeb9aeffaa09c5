/** The words of a house's parts, as the trade uses them. */
export const foundationWords: Record<string, string> = {
  slab: 'Slab on grade',
  crawlspace: 'Crawlspace',
  basement: 'Basement',
  pier: 'Pier and beam',
};
export const ventilationWords: Record<string, string> = {
  none: 'None',
  exhaust: 'Exhaust',
  supply: 'Supply',
  balanced: 'Balanced',
};
export const roomWords: Record<string, string> = { bedroom: 'Bedroom', bath: 'Bathroom', kitchen: 'Kitchen' };
export const applianceWords: Record<string, string> = {
  furnace: 'Furnace',
  boiler: 'Boiler',
  'water-heater': 'Water heater',
  fireplace: 'Fireplace',
  'room-heater': 'Room heater',
  range: 'Range',
  dryer: 'Clothes dryer',
};
export const fuelWords: Record<string, string> = {
  'natural-gas': 'Natural gas',
  propane: 'Propane',
  oil: 'Oil',
  wood: 'Wood',
  electric: 'Electric',
};
export const ventingWords: Record<string, string> = {
  atmospheric: 'Natural draft',
  'fan-assisted': 'Fan-assisted',
  'power-vented': 'Power-vented',
  'direct-vent': 'Direct vent',
  unvented: 'Unvented',
  none: 'Needs no vent',
};
