import {
  IconChecklist,
  IconDice3,
  IconMathFunction,
  IconStack2,
  IconAlertTriangle,
  IconBuildingCommunity,
  IconCalculator,
  IconCalendarEvent,
  IconCalendarShare,
  IconCalendarWeek,
  IconChartDots,
  IconClipboardCheck,
  IconGauge,
  IconHistory,
  IconHome,
  IconInbox,
  IconLink,
  IconLayoutDashboard,
  IconListCheck,
  IconMail,
  IconPlugOff,
  IconMessageReport,
  IconRepeat,
  IconRotate2,
  IconRoute,
  IconRulerMeasure,
  IconSettings,
  IconShieldCheck,
  IconTools,
  IconUserCheck,
  IconUsers,
  IconZoomExclamation,
} from '@tabler/icons-react';
import { staff, type Role } from '@countercheck/contracts';

const keepers: readonly Role[] = ['office', 'administrator'];
const admin: readonly Role[] = ['administrator'];
const lookingBack: readonly Role[] = ['quality', 'administrator'];

const groups = [
  {
    title: 'Work',
    items: [
      { to: '/', label: 'Overview', icon: IconLayoutDashboard },
      { to: '/day', label: 'My day', icon: IconCalendarEvent, roles: ['rater'] },
      { to: '/review', label: 'Review', icon: IconClipboardCheck, roles: ['quality'] },
      { to: '/signals', label: 'Signals', icon: IconChartDots, roles: lookingBack },
      { to: '/houses', label: 'Houses', icon: IconHome, roles: staff },
      { to: '/board', label: 'Week board', icon: IconCalendarWeek, roles: [...keepers, 'quality'] },
      { to: '/plans', label: 'Plans', icon: IconRoute, roles: keepers },
      { to: '/requests', label: 'Requests', icon: IconInbox, roles: keepers },
      { to: '/visits', label: 'Visits', icon: IconCalendarEvent, roles: keepers },
      { to: '/reinspections', label: 'Reinspections', icon: IconRepeat, roles: keepers },
      { to: '/failed-items', label: 'Failed items', icon: IconAlertTriangle, roles: [...keepers, 'quality'] },
      { to: '/my-houses', label: 'My houses', icon: IconHome, roles: ['builder'] },
      { to: '/not-ready', label: 'Not ready', icon: IconPlugOff, roles: [...keepers, 'quality', 'builder'] },
      { to: '/calendar', label: 'Calendar', icon: IconCalendarShare, roles: ['rater'] },
    ],
  },
  {
    title: 'Sampling',
    items: [
      { to: '/obligations', label: 'Obligations', icon: IconChecklist, roles: lookingBack },
      { to: '/draws', label: 'Draws', icon: IconDice3, roles: lookingBack },
      { to: '/batches', label: 'Batches', icon: IconStack2, roles: lookingBack },
      { to: '/sample-plans', label: 'Sample plans', icon: IconMathFunction, roles: lookingBack },
    ],
  },
  {
    title: 'Quality',
    items: [
      { to: '/file-reviews', label: 'File reviews', icon: IconListCheck, roles: lookingBack },
      {
        to: '/file-findings',
        label: 'Findings',
        icon: IconMessageReport,
        roles: ['rater', 'office', ...lookingBack],
      },
      { to: '/retests', label: 'Re-tests', icon: IconRulerMeasure, roles: ['office', ...lookingBack] },
      { to: '/corrective-actions', label: 'Corrective actions', icon: IconShieldCheck, roles: lookingBack },
    ],
  },
  {
    title: 'Parties',
    items: [
      { to: '/builders', label: 'Builders', icon: IconBuildingCommunity, roles: keepers },
      { to: '/raters', label: 'Raters', icon: IconUserCheck, roles: keepers },
      { to: '/installers', label: 'Installers', icon: IconTools, roles: keepers },
    ],
  },
  {
    title: 'Basis',
    items: [
      { to: '/instruments', label: 'Instruments', icon: IconGauge, roles: staff },
      { to: '/rule-sets', label: 'Rule sets', icon: IconRulerMeasure, roles: staff },
      { to: '/replays', label: 'Replays', icon: IconRotate2, roles: lookingBack },
      { to: '/recalls', label: 'Recalls', icon: IconZoomExclamation, roles: lookingBack },
      { to: '/calculator', label: 'Calculator', icon: IconCalculator, roles: staff },
    ],
  },
  {
    title: 'Company',
    items: [
      { to: '/users', label: 'Users', icon: IconUsers, roles: admin },
      { to: '/company', label: 'Options', icon: IconSettings, roles: admin },
      { to: '/mail', label: 'Mail', icon: IconMail, roles: admin },
      { to: '/events', label: 'Events', icon: IconHistory, roles: [...admin, 'quality'] },
      { to: '/event-log', label: 'Chained log', icon: IconLink, roles: [...admin, 'quality'] },
    ],
  },
] satisfies { title: string; items: NavigationItem[] }[];

interface NavigationItem {
  to: string;
  label: string;
  icon: typeof IconHome;
  roles?: readonly Role[];
}

export function navigationFor(role: Role): { title: string; items: NavigationItem[] }[] {
  return groups
    .map(({ title, items }: { title: string; items: NavigationItem[] }) => ({
      title,
      items: items.filter(({ roles }) => !roles || roles.includes(role)),
    }))
    .filter(({ items }) => items.length > 0);
}
