export { Caution } from './caution.tsx';
export { CloseMark } from './close-mark.tsx';
export { FailureReason } from './failure-reason.tsx';
export { HouseName } from './house-name.tsx';
export { Stage, stageOrder, stageWords } from './stage.tsx';
export { type MarkedStatus, StatusMark } from './status-mark.tsx';
export { Tag } from './tag.tsx';
