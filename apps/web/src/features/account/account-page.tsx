import { roleLabels } from '@countercheck/contracts';
import { FactList, Page, Panel } from '../../components/page/index.ts';
import { useMe } from '../../lib/session.ts';
import { MailPanel } from './mail-panel.tsx';
import { PasswordPanel } from './password-panel.tsx';
import { ProfilePanel } from './profile-panel.tsx';
import { SecondFactorPanel } from './second-factor-panel.tsx';

export default function AccountPage() {
  const me = useMe();
  return (
    <Page title="My account" width="reading">
      <Panel title="Who you are here">
        <FactList
          facts={[
            ['Email', me.email],
            ['Role', roleLabels[me.role]],
            ['Company', me.builder?.name ?? me.company.name],
          ]}
        />
      </Panel>
      <ProfilePanel />
      <MailPanel />
      <SecondFactorPanel />
      <PasswordPanel />
    </Page>
  );
}
