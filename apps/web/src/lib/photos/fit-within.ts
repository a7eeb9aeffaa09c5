/** The size of a picture whose longer side is held to a limit; smaller ones stay as they are. */
export function fitWithin(width: number, height: number, limit: number): { width: number; height: number } {
  const longer = Math.max(width, height);
  if (longer <= limit) return { width, height };
  const share = limit / longer;
  return { width: Math.max(1, Math.round(width * share)), height: Math.max(1, Math.round(height * share)) };
}
