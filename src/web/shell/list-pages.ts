/** One of several lists or orders to choose from, as a link. */
export interface Choice {
  readonly words: string;
  readonly href: string;
  readonly isCurrent: boolean;
}

/** Where one is in a list of many pages; an end that is reached has no link. */
export interface ListPages {
  readonly words: string;
  readonly previous: string | null;
  readonly next: string | null;
}

/** What an empty list means, and what would fill it. */
export interface EmptyList {
  readonly title: string;
  readonly sentence: string;
}

/**
 * The pages of a list, or null where one page holds all.
 * @param hrefOf address of a page, counted from 1
 */
export function listPages(
  list: { readonly total: number; readonly page: number; readonly pageSize: number },
  hrefOf: (page: number) => string,
): ListPages | null {
  const { total, page, pageSize } = list;
  if (total <= pageSize) return null;
  const pages = Math.ceil(total / pageSize);
  return {
    words: `Page ${page.toLocaleString('en-US')} of ${pages.toLocaleString('en-US')}`,
    previous: page > 1 ? hrefOf(page - 1) : null,
    next: page < pages ? hrefOf(page + 1) : null,
  };
}
