/**
 * Waits until a transaction is on the disk. When it fails, the transaction's own reason is thrown: the requests
 * in it say only that they were aborted.
 */
export async function written(
  transaction: { readonly done: Promise<void>; readonly error: DOMException | null },
  requests: readonly Promise<unknown>[],
): Promise<void> {
  try {
    await Promise.all([...requests, transaction.done]);
  } catch (thrown) {
    throw transaction.error ?? thrown;
  }
}
