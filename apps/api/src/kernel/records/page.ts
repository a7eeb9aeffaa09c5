/** Where a page of a list begins, for Prisma. */
export function pageWindow({ page, pageSize }: { page: number; pageSize: number }): {
  skip: number;
  take: number;
} {
  return { skip: (page - 1) * pageSize, take: pageSize };
}

/** One page as the contracts speak it. */
export function pageAnswer<T>(
  items: T[],
  total: number,
  { page, pageSize }: { page: number; pageSize: number },
) {
  return { items, total, page, pageSize };
}
