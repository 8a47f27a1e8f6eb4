/** A piece of a page whose height is known before it is drawn, so that a layout can be chosen. */
export interface Block {
  heightMm: number;
  draw(topMm: number): void;
}

/** Blocks one under the other. */
export function stacked(blocks: readonly Block[]): Block {
  return {
    heightMm: blocks.reduce((height, block) => height + block.heightMm, 0),
    draw(topMm) {
      let top = topMm;
      for (const block of blocks) {
        block.draw(top);
        top += block.heightMm;
      }
    },
  };
}

/** Empty space. */
export function space(heightMm: number): Block {
  return { heightMm, draw: () => {} };
}
