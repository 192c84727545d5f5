// Taps kept on this device until the workshop has them: one record a tap, `{ base, entry }`, in IndexedDB or, where that is
// not to be had, in localStorage. A write that does not come through throws: then none of its taps is kept.

const DATABASE = "crankwise";
const STORE = "taps";
const PREFIX = "crankwise-tap ";

/** Open the taps of one run. `run` names the run and its schedule, so that another store's run is not met. */
export async function openKeep(run) {
  const range = (name) => [`${name}\u0000`, `${name}\u0001`];
  try {
    return indexedKeep(await openDatabase(), run, ...range(run));
  } catch {
    return localKeep(run);
  }
}

function openDatabase() {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.open(DATABASE, 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(STORE);
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
    asked.onblocked = () => reject(new Error("blocked"));
  });
}

const keyOf = (run, place, tap) => `${run}\u0000${String(place).padStart(9, "0")} ${tap}`;

function indexedKeep(database, run, from, to) {
  const within = IDBKeyRange.bound(from, to);
  function transact(mode, work) {
    return new Promise((resolve, reject) => {
      // strict: the record is on the disk before the page says that it is kept
      const transaction = database.transaction(STORE, mode, { durability: "strict" });
      const asked = work(transaction.objectStore(STORE));
      transaction.oncomplete = () => resolve(asked?.result);
      transaction.onabort = () => reject(transaction.error ?? new Error("not kept"));
    });
  }
  return {
    lasts: true,
    records: () => transact("readonly", (store) => store.getAll(within)),
    add: (place, records) =>
      transact("readwrite", (store) =>
        records.forEach((record, more) => store.add(record, keyOf(run, place + more, record.entry.tap))),
      ),
    async drop(taps) {
      const keys = await transact("readonly", (store) => store.getAllKeys(within));
      const gone = keys.filter((key) => taps.has(key.slice(key.indexOf(" ", from.length) + 1)));
      await transact("readwrite", (store) => gone.forEach((key) => store.delete(key)));
    },
  };
}

function localKeep(run) {
  const begins = `${PREFIX}${run}\u0000`;
  let place;
  try {
    place = window.localStorage;
    place.getItem(begins);
  } catch {
    return memoryKeep();
  }
  const keys = () => Object.keys(place).filter((key) => key.startsWith(begins)).sort();
  return {
    lasts: true,
    records: async () => keys().map((key) => JSON.parse(place.getItem(key))),
    async add(at, records) {
      const told = records.map((record, more) => [PREFIX + keyOf(run, at + more, record.entry.tap), JSON.stringify(record)]);
      if (told.some(([key]) => place.getItem(key) !== null)) throw new Error("kept already");
      try {
        told.forEach(([key, record]) => place.setItem(key, record));
      } catch (error) {
        told.forEach(([key]) => place.removeItem(key)); // no room for all of them
        throw error;
      }
    },
    async drop(taps) {
      for (const key of keys()) if (taps.has(JSON.parse(place.getItem(key)).entry.tap)) place.removeItem(key);
    },
  };
}

/** A browser that lets a page keep nothing: it holds while the page is open, and the page says so. */
function memoryKeep() {
  let held = [];
  return {
    lasts: false,
    records: async () => [...held],
    add: async (_, records) => void held.push(...records),
    drop: async (taps) => void (held = held.filter(({ entry }) => !taps.has(entry.tap))),
  };
}

/** A name for a device or a tap: randomUUID is not there on a plain http address. */
export function newName(bytes = 9) {
  const letters = "abcdefghijkmnpqrstuvwxyz23456789";
  return Array.from(crypto.getRandomValues(new Uint8Array(bytes)), (byte) => letters[byte % 32]).join("");
}
