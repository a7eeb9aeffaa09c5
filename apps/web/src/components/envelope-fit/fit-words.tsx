import { envelopeTarget, format } from '@countercheck/measurement';
import { Tag } from '../marks/index.ts';
import { useUnitSystem } from '../../lib/units/unit-system.ts';
import type { DrawnFit, DrawnLine } from './drawn-fit.ts';

const lineWords = ({ exponent, rSquared }: DrawnLine) =>
  rSquared === null
    ? `Too few points for a fit: the line has the assumed exponent ${exponent}.`
    : `The line has the exponent ${exponent.toFixed(3)} and r² ${rSquared.toFixed(4)}.`;

/** The fit in words, and what is wrong with it, so that nobody depends on the drawing. */
export function FitWords({ fit: { lines, atReference, points, findings } }: { fit: DrawnFit }) {
  const system = useUnitSystem();
  const say = (flow: number) => format('airflow', flow, system);
  return (
    <>
      <p>
        {lines.map(lineWords).join(' ')}
        {atReference && ` At ${envelopeTarget.reference} Pa it gives ${say(atReference.value)}`}
        {atReference?.low && atReference.high
          ? `, between ${say(atReference.low)} and ${say(atReference.high)} with 95 % confidence from the scatter of the points.`
          : '.'}
      </p>
      <ul className="fit-findings">
        {points
          .filter(({ problem }) => problem !== null)
          .map(({ key, label, problem }) => (
            <li key={key}>
              <Tag tone="bad">{label}</Tag> {problem}
            </li>
          ))}
        {findings.map(({ code, severity, message, source }) => (
          <li key={`${code}/${message}`}>
            <Tag tone={severity === 'invalid' ? 'bad' : 'brass'}>
              {severity === 'invalid' ? 'Not valid' : 'Remark'}
            </Tag>{' '}
            {message} <span className="soft small">{source}</span>
          </li>
        ))}
      </ul>
    </>
  );
}
