import type { FailedItem, ReinspectionRequest } from '@countercheck/contracts';

export const itemStateWords: Record<FailedItem['state'], string> = {
  open: 'Open',
  corrected: 'Corrected, not yet tested again',
  reinspection_asked: 'Reinspection asked for',
  closed: 'Closed',
};

const tradeNames: Record<string, string> = {
  'hvac-installer': 'HVAC installer',
  'insulator-air-sealer': 'Insulator and air sealer',
  electrician: 'Electrician',
  builder: 'Builder',
  plumber: 'Plumber',
};
export const tradeWords = (trade: string): string => tradeNames[trade] ?? trade;

const entryNames: Record<string, string> = {
  opened: 'Failed',
  corrected: 'Corrected',
  reinspection_asked: 'Reinspection asked for',
  reopened: 'Failed again',
  closed: 'Closed',
  note: 'Note',
};
export const entryWords = (kind: string): string => entryNames[kind] ?? kind;

export const requestStateWords: Record<ReinspectionRequest['state'], string> = {
  asked: 'Asked for, not booked yet',
  booked: 'Booked',
  done: 'Done',
  withdrawn: 'Withdrawn',
};
