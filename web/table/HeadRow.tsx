/** The heads of a table's columns; those over numbers stand to the right, as the numbers do. */
export function HeadRow({
  heads,
  isNumeric = () => false,
}: {
  readonly heads: readonly string[];
  readonly isNumeric?: (column: number) => boolean;
}) {
  return (
    <thead>
      <tr>
        {heads.map((head, i) => (
          <th key={head} scope="col" class={isNumeric(i) ? "number" : undefined}>
            {head}
          </th>
        ))}
      </tr>
    </thead>
  );
}
