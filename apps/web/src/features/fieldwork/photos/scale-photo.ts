export { scalePhoto } from '../../../lib/photos/scale-photo.ts';
