/** "4 o’clock", "half past 4" as the clock round a stoma is read out. */
export function hourWords(hour: number): string {
  const whole = Math.floor(hour) || 12;
  return Number.isInteger(hour) ? `${whole} o’clock` : `half past ${whole === 12 ? 12 : whole}`;
}
