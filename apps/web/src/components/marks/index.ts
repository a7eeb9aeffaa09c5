export { Caution } from './caution.tsx';
export { CloseMark } from './close-mark.tsx';
export { FailureReason } from './failure-reason.tsx';
export { Stage, stageOrder, stageWords } from './stage.tsx';
export { type MarkedStatus, StatusMark } from './status-mark.tsx';
export { Tag } from './tag.tsx';
