/** Plain text table; the first columns stand left, the rest right. */
export function tableOf(header: readonly string[], rows: readonly (readonly string[])[], leftColumns: number): string {
  const widths = header.map((title, column) => Math.max(title.length, ...rows.map((row) => row[column]?.length ?? 0)));
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, column) => {
        const width = widths[column] as number;
        return column < leftColumns ? cell.padEnd(width) : cell.padStart(width);
      })
      .join('  ')
      .trimEnd();
  return [line(header), line(widths.map((width) => '-'.repeat(width))), ...rows.map(line)].join('\n');
}
