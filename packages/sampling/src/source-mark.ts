/** Where a figure or a rule comes from: seen at the source named, remembered, worked out, or only common practice. */
export interface SourceMark {
  mark: 'seen' | 'from memory' | 'computed' | 'common practice, no published source';
  source: string;
}
