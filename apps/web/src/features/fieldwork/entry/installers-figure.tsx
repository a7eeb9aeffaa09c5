import { IconEyeOff } from '@tabler/icons-react';
import { Quantity } from '../../../components/fields/index.ts';
import type { ReportedLine } from './reported.ts';

/** The installer's figures beside one's own, or that they wait for it. */
export function InstallersFigure({ lines, hidden }: { lines: readonly ReportedLine[]; hidden: boolean }) {
  if (lines.length === 0) return null;
  if (hidden) {
    return (
      <p className="installers-figure">
        <IconEyeOff size={18} aria-hidden="true" /> Installer’s figure: hidden until your own reading is
        recorded.
      </p>
    );
  }
  return (
    <p className="installers-figure">
      Installer’s figure:{' '}
      {lines.map(({ label, quantity, value }, i) => (
        <span key={label}>
          {i > 0 && '; '}
          {label}{' '}
          <strong>
            <Quantity kind={quantity} value={value} absent="not reported" />
          </strong>
        </span>
      ))}
    </p>
  );
}
