/** One sign-in a role for trying the demo; the people and addresses are invented. */
export const demoPassword = 'lantern-orbit-walnut-42';

export const demoSignIns = [
  {
    role: 'Office',
    email: 'office@countercheck.example',
    name: 'Maren Tolliver-Osei',
    password: demoPassword,
  },
  { role: 'Rater', email: 'rater@countercheck.example', name: 'Ines Quillfeather', password: demoPassword },
  {
    role: 'Quality manager',
    email: 'quality@countercheck.example',
    name: 'Bertil Amankwe-Rowe',
    password: demoPassword,
  },
  { role: 'Builder', email: 'builder@oxbarrow.example', name: 'Dunstan Peverill', password: demoPassword },
  {
    role: 'Administrator',
    email: 'admin@countercheck.example',
    name: 'Sunniva Darkwood',
    password: demoPassword,
  },
];
