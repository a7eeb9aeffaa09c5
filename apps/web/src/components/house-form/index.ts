export { FiguresFields } from './figures-fields.tsx';
export { PartsEditor } from './parts-editor.tsx';
export { emptyFigures, emptyParts, figuresOf, type HouseFigures, partsOfPlan } from './values.ts';
