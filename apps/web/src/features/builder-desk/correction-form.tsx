import { FileInput, Textarea } from '@mantine/core';
import { failedItems, houses, type FailedItem } from '@countercheck/contracts';
import { useState } from 'react';
import { FormBody, said } from '../../components/feedback/index.ts';
import { Panel } from '../../components/page/index.ts';
import { upload } from '../../lib/client.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { scalePhoto } from '../../lib/photos/scale-photo.ts';
import { useAction } from '../../lib/query.ts';

/** A photo with the id under which it is stored once, however often it is sent. */
interface ChosenPhoto {
  id: string;
  file: File;
}

/** Says what was done about a failed item, with a photo of it. */
export function CorrectionForm({ item }: { item: FailedItem }) {
  const [photo, setPhoto] = useState<ChosenPhoto | null>(null);
  const params = { id: item.id };
  const correct = useAction(failedItems.correct, {
    invalidates: [failedItems.show, failedItems.list, houses.show, houses.list],
  });
  const contract = useContractForm({
    schema: failedItems.correct.body,
    initialValues: { text: '' },
    send: async (body) => {
      // The photo goes first: when it is refused, the correction is not recorded without it.
      if (photo) {
        const takenAt = new Date(photo.file.lastModified).toISOString();
        await upload(
          failedItems.addPhoto,
          { params, body: { id: photo.id, takenAt } },
          await scalePhoto(photo.file),
          photo.file.name,
        );
      }
      await correct.mutateAsync({ params, body });
      setPhoto(null);
      contract.form.reset();
      said('The correction is recorded.');
    },
  });
  return (
    <Panel title={item.state === 'open' ? 'Record the correction' : 'Record a further correction'}>
      <FormBody of={contract} action="Record the correction">
        <Textarea
          size="md"
          label="What was corrected"
          description="By whom, where, and how."
          autosize
          minRows={3}
          required
          {...contract.form.getInputProps('text')}
        />
        <FileInput
          size="md"
          label="Photo"
          description="JPEG, PNG or WebP, at most 15 MB. May be left out."
          placeholder="Choose or take a photo"
          accept="image/jpeg,image/png,image/webp"
          clearable
          clearButtonProps={{ 'aria-label': 'Take the photo out' }}
          value={photo?.file ?? null}
          onChange={(file) => setPhoto(file ? { id: crypto.randomUUID(), file } : null)}
        />
      </FormBody>
    </Panel>
  );
}
