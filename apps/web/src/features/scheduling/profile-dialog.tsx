import { Checkbox, TextInput } from '@mantine/core';
import { instruments, raterProfileBody, scheduling, type RaterProfile } from '@countercheck/contracts';
import { qualifications } from '@countercheck/assessment';
import { Dialog, FormBody, said } from '../../components/feedback/index.ts';
import { Asked } from '../../components/states/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { qualificationWords } from '../../lib/words/scheduling.ts';
import './scheduling.css';

const weekdayWords = [
  ...['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'],
] as const;
const numberOf = (text: string) => (text.trim() === '' ? null : Number(text));

/** One rater's hours, start, training and kit. */
export function ProfileDialog({ profile, onClose }: { profile: RaterProfile; onClose: () => void }) {
  const all = useRoute(instruments.list, { query: { pageSize: 100 } });
  const change = useAction(scheduling.changeProfile, {
    invalidates: [scheduling.profiles, scheduling.board, scheduling.tryVisit],
  });
  const hours = weekdayWords.map((_, index) => {
    const own = profile.workingHours.find(({ weekday }) => weekday === index + 1);
    return { works: own !== undefined, from: own?.from ?? '08:00', to: own?.to ?? '16:30' };
  });
  const of = useContractForm({
    schema: raterProfileBody,
    initialValues: {
      hours,
      ...{ qualifications: [...profile.qualifications] as string[], startsAtHome: profile.startsAtHome },
      breakMinutes: String(profile.breakMinutes),
      homeLatitude: profile.homeLatitude?.toString() ?? '',
      homeLongitude: profile.homeLongitude?.toString() ?? '',
      instrumentIds: [...profile.instrumentIds],
    },
    toBody: (values) =>
      ({
        qualifications: values.qualifications,
        workingHours: values.hours.flatMap(({ works, from, to }, index) =>
          works ? [{ weekday: index + 1, from, to }] : [],
        ),
        breakMinutes: numberOf(values.breakMinutes) ?? NaN,
        startsAtHome: values.startsAtHome,
        homeLatitude: numberOf(values.homeLatitude),
        homeLongitude: numberOf(values.homeLongitude),
        instrumentIds: values.instrumentIds,
      }) as BodyOf<typeof scheduling.changeProfile>,
    send: async (body) => {
      await change.mutateAsync({ params: { id: profile.rater.id }, body });
      said('Rater saved');
      onClose();
    },
  });
  const field = of.form.getInputProps;
  return (
    <Dialog title={profile.rater.name} wide onClose={onClose}>
      <FormBody of={of} action="Save" onCancel={onClose}>
        <fieldset className="hours">
          <legend>Working hours</legend>
          {weekdayWords.map((day, index) => (
            <div key={day} className="hours-day">
              <Checkbox label={day} {...field(`hours.${index}.works`, { type: 'checkbox' })} />
              {of.form.getValues().hours[index]?.works && (
                <>
                  <TextInput type="time" aria-label={`${day}, from`} {...field(`hours.${index}.from`)} />
                  <TextInput type="time" aria-label={`${day}, to`} {...field(`hours.${index}.to`)} />
                </>
              )}
            </div>
          ))}
          {of.form.errors.workingHours && <p role="alert">{of.form.errors.workingHours}</p>}
        </fieldset>
        <Checkbox.Group label="May do" {...field('qualifications')}>
          <div className="hours">
            {qualifications.map((each) => (
              <Checkbox key={each} value={each} label={qualificationWords[each]} />
            ))}
          </div>
        </Checkbox.Group>
        <Checkbox
          label="Starts and ends the day at home, not at the office"
          {...field('startsAtHome', { type: 'checkbox' })}
        />
        <div className="fields">
          <TextInput label="Break, minutes" inputMode="numeric" {...field('breakMinutes')} />
          <TextInput label="Home, latitude" inputMode="decimal" {...field('homeLatitude')} />
          <TextInput label="Home, longitude" inputMode="decimal" {...field('homeLongitude')} />
        </div>
        <Asked query={all}>
          {({ items }) => (
            <Checkbox.Group label="Kit" {...field('instrumentIds')}>
              <div className="kit">
                {items
                  .filter(({ active }) => active)
                  .map(({ id, label }) => (
                    <Checkbox key={id} value={id} label={label} />
                  ))}
              </div>
            </Checkbox.Group>
          )}
        </Asked>
      </FormBody>
    </Dialog>
  );
}
