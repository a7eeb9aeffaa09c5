import { Trouble } from './trouble.mjs';

const [major, minor] = [20, 19];

export function requireNode(version = process.versions.node) {
  const [haveMajor = 0, haveMinor = 0] = version.split('.').map(Number);
  if (haveMajor > major || (haveMajor === major && haveMinor >= minor)) return;
  throw new Trouble(
    `Countercheck needs Node ${major}.${minor} or newer and this is ${version}; install a newer one from nodejs.org.`,
  );
}
