import { Link } from '@tanstack/react-router';
import { usePhone } from '../phone/use-phone.ts';
import { UpdateOffer } from '../update/update-offer.tsx';
import { clockWords, statusWords } from './words.ts';
import './phone-status.css';

/** Always in sight on a rater's pages: what is not sent yet, and whether there is a network. */
export default function PhoneStatus() {
  const { phone, state } = usePhone();
  if (!state.ready) return null;
  const refused = state.entries.some(({ refusal }) => refusal);
  const clock = clockWords(state);
  const tone =
    refused || state.problem || state.unkept > 0 || clock
      ? 'bad'
      : state.entries.length > 0
        ? 'waits'
        : 'good';
  return (
    <div className={`phone-status phone-status-${tone}`}>
      <Link to="/unsent" aria-label={`${statusWords(state)}. Show what is not sent`}>
        {statusWords(state)}
      </Link>
      {clock && <span role="status">{clock}</span>}
      <UpdateOffer kept={async () => phone?.draftsWritten()} />
    </div>
  );
}
