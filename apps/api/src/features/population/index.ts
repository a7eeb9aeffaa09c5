// Which files there are, whose they are, and what share of them is to be looked at again.
export { countFiles, filesOf, type File } from './files.ts';
export { columnOf, sharesInForce } from './shares.ts';
