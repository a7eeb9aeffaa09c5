export const tradeWords: Record<string, string> = {
  'hvac-installer': 'HVAC installer',
  'insulator-air-sealer': 'Insulation and air sealing',
  electrician: 'Electrician',
  plumber: 'Plumber',
  builder: 'Builder',
};
