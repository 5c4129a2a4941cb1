const px = (n: number) => Math.round(n * 10) / 10;

/** The style of a button over the drawn board, px. As text: a browser takes it in at once, and property by property slower. */
export function placeAt(left: number, top: number, width: number, height: number): string {
  return `left:${px(left)}px;top:${px(top)}px;width:${px(width)}px;height:${px(height)}px`;
}
