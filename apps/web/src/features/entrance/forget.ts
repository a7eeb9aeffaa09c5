/**
 * Whoever comes to sign in has no session here, or has one proven by signing in: nobody whose session was ended, on a
 * phone that was lost perhaps, is let in by the phone alone from now on. What was not sent stays.
 */
export async function forgetWhoWasIn(): Promise<void> {
  const known = await indexedDB.databases?.();
  // Nothing is made on the device of somebody who never worked on it.
  if (!known?.some(({ name }) => name === 'countercheck')) return;
  const { openPhoneDatabase } = await import('../../lib/phone/database.ts');
  const db = await openPhoneDatabase();
  await db.delete('kept', 'me');
  db.close();
}
