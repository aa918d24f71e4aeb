/** What a request to the browser's database comes to; rejects where it was refused. */
export function settled<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((done, fail) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
  });
}

/** Settles once all of a transaction is on the disk. */
export function completed(transaction: IDBTransaction): Promise<void> {
  return new Promise((done, fail) => {
    transaction.oncomplete = () => done();
    transaction.onabort = () => fail(transaction.error);
    transaction.onerror = () => fail(transaction.error);
  });
}

/** Opens a database of one store; both are made where there are none. */
export function openDatabase(name: string, store: string): Promise<IDBDatabase> {
  const request = indexedDB.open(name, 1);
  request.onupgradeneeded = () => request.result.createObjectStore(store);
  return settled(request);
}
