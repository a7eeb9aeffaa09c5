import type { Flip } from '@countercheck/assessment';

export interface LetterHouse {
  place: string;
  sealed: boolean;
  revisit: boolean;
  notCorrected: number;
  flips: readonly Flip[];
}

export interface LetterFacts {
  builder: string;
  company: string;
  /** label and serial number */
  instrument: string;
  /** what was wrong, as a clause */
  error: string;
  from: string;
  to: string;
  reason: string;
  houses: readonly LetterHouse[];
}

const flipLines = (house: LetterHouse, direction: Flip['direction']) =>
  house.flips
    .filter((each) => each.direction === direction)
    .map((each) => `    ${each.title}, ${each.subjectLabel}: ${each.reasonAfter}`);

function againLines(house: LetterHouse): string[] {
  const unread =
    house.notCorrected > 0
      ? [
          `    The error cannot be taken out of ${house.notCorrected === 1 ? 'a reading' : `${house.notCorrected} readings`}.`,
        ]
      : [];
  const sealed = house.sealed
    ? ['    The file was released. It stays as it was sealed; what we find goes into a new revision.']
    : [];
  return [`- ${house.place}`, ...flipLines(house, 'worse'), ...unread, ...sealed];
}

const section = (title: string, lines: string[]) => (lines.length > 0 ? [title, '', ...lines, ''] : []);

/** A letter to one builder, as a draft that the quality manager reads, changes and sends. */
export function draftLetter(facts: LetterFacts): { subject: string; body: string } {
  const { houses, builder, company, instrument, error, from, to, reason } = facts;
  const again = houses.filter((each) => each.revisit);
  const better = houses.filter((each) => each.flips.some(({ direction }) => direction === 'better'));
  const count = houses.length === 1 ? '1 house' : `${houses.length} houses`;
  const body = [
    `To ${builder}`,
    '',
    `An instrument with which we tested your houses from ${from} to ${to}, ${instrument}, was found out of tolerance: ${error}.`,
    `How it was found: ${reason}`,
    '',
    'We took the error out of every reading made with it and judged the houses again. Nothing in the files was changed by this.',
    '',
    ...section('To be measured again:', again.flatMap(againLines)),
    ...section(
      'Not passed because of the error; without it these items pass:',
      better.flatMap((each) => [`- ${each.place}`, ...flipLines(each, 'better')]),
    ),
    again.length > 0
      ? 'We will come to measure again and ask you for a time that suits. Please leave the equipment as it is until then.'
      : 'There is nothing that you have to do.',
    '',
    company,
    '',
  ].join('\n');
  return { subject: `An instrument out of tolerance: ${count} of yours concerned`, body };
}
