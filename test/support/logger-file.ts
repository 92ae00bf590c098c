import { closeSync, openSync, writeSync } from 'node:fs';

/** Writes the export of an invented logger: a reading a minute, decimal comma, times in UTC. */
export function writeLoggerFile(path: string, rows: number): void {
  const file = openSync(path, 'w');
  let piece = 'Time (UTC);Temperature (°C)\n';
  const start = Date.UTC(2024, 0, 1);
  for (let row = 0; row < rows; row += 1) {
    const at = new Date(start + row * 60_000).toISOString();
    piece += `${at.slice(0, 10)} ${at.slice(11, 19)};${(5 + 3 * Math.sin(row / 300)).toFixed(2).replace('.', ',')}\n`;
    if (piece.length > 1_000_000 || row === rows - 1) {
      writeSync(file, piece);
      piece = '';
    }
  }
  closeSync(file);
}
