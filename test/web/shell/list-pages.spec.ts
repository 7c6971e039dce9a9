import { describe, expect, it } from '@jest/globals';
import { listPages } from '../../../src/web/shell/list-pages.js';

const href = (page: number) => `/list?page=${page}`;

describe('listPages', () => {
  it('are none where one page holds all', () => {
    expect(listPages({ total: 0, page: 1, pageSize: 50 }, href)).toBeNull();
    expect(listPages({ total: 50, page: 1, pageSize: 50 }, href)).toBeNull();
  });

  it('lead to the page before and after, and nowhere beyond an end', () => {
    expect(listPages({ total: 51, page: 1, pageSize: 50 }, href)).toEqual({
      words: 'Page 1 of 2',
      previous: null,
      next: '/list?page=2',
    });
    expect(listPages({ total: 150, page: 2, pageSize: 50 }, href)).toMatchObject({
      previous: '/list?page=1',
      next: '/list?page=3',
    });
    expect(listPages({ total: 150, page: 3, pageSize: 50 }, href)?.next).toBeNull();
  });

  it('are counted with a thousands mark', () => {
    expect(listPages({ total: 60_000, page: 1100, pageSize: 50 }, href)?.words).toBe('Page 1,100 of 1,200');
  });
});
