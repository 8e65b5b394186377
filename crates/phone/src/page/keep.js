// Where happenings are kept on this phone: in IndexedDB, and shown as kept only when it says that they are.
import { plan } from "./data.js";
import { newId } from "./events.js";

/** @typedef {import("./data.js").Happening} Happening */
/** @typedef {import("./data.js").Draft} Draft */

/** Where each is besides: handed out as a file, or seen by the laptop. @typedef {"exported" | "laptop"} Sent */

const STORES = { events: "events", sent: "sent", own: "own" };

/** @template T @param {IDBRequest<T>} request @returns {Promise<T>} */
const answer = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

/** @param {IDBTransaction} transaction @returns {Promise<void>} */
const whole = (transaction) => new Promise((resolve, reject) => {
  transaction.oncomplete = () => resolve();
  transaction.onabort = () => reject(transaction.error);
  transaction.onerror = () => reject(transaction.error);
});

/** @returns {Promise<IDBDatabase>} */
function open() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open("latchline", 1);
    request.onupgradeneeded = () => {
      const events = request.result.createObjectStore(STORES.events, { keyPath: ["site", "id"] });
      events.createIndex("site", "site");
      request.result.createObjectStore(STORES.sent, { keyPath: ["site", "id"] }).createIndex("site", "site");
      request.result.createObjectStore(STORES.own, { keyPath: "key" });
    };
    request.onsuccess = () => {
      request.result.onversionchange = () => request.result.close();
      resolve(request.result);
    };
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error("blocked"));
  });
}

/** What this phone keeps. */
export class Keeper {
  constructor() {
    /** @type {IDBDatabase | null} */
    this.database = null;
    /** Why nothing is kept, in the browser's words; empty while all is well. */
    this.trouble = "";
    /** @type {Map<string, Happening>} */
    this.events = new Map();
    /** Of those, what only stands in the memory of this page. @type {Set<string>} */
    this.inMemory = new Set();
    /** @type {Map<string, Sent>} */
    this.sent = new Map();
    this.device = "";
    this.name = "";
    this.sequence = 0;
  }

  /** Opens the store and reads what is there. */
  async start() {
    try {
      this.database = await open();
      const transaction = this.database.transaction([STORES.own], "readwrite");
      const own = transaction.objectStore(STORES.own);
      const device = await answer(own.get("device"));
      this.device = device?.value ?? newId();
      if (!device) own.put({ key: "device", value: this.device });
      this.name = (await answer(own.get("name")))?.value ?? "";
      await whole(transaction);
      await this.look();
    } catch (error) {
      this.fail(error);
      this.device ||= newId();
    }
  }

  /** Reads again what another page may have kept. */
  async look() {
    if (!this.database) return;
    try {
      const transaction = this.database.transaction([STORES.events, STORES.sent], "readonly");
      const [events, sent] = await Promise.all([
        answer(transaction.objectStore(STORES.events).index("site").getAll(plan.site)),
        answer(transaction.objectStore(STORES.sent).index("site").getAll(plan.site)),
      ]);
      for (const row of events) this.events.set(row.id, row.event);
      for (const row of sent) this.sent.set(row.id, row.state);
    } catch (error) {
      this.fail(error);
    }
  }

  /** @param {unknown} error */
  fail(error) {
    this.trouble = error instanceof Error || error instanceof DOMException ? `${error.name}: ${error.message}` : String(error);
  }

  /**
   * Keeps something that happened here. It is on the medium when this returns, or `trouble` says that it is not.
   * @param {Draft} draft @returns {Promise<Happening>}
   */
  async add(draft) {
    /** @type {Happening} */
    const event = { id: newId(), device: this.device, sequence: 0, plan: plan.plan, revision: plan.revision, at: Date.now(), by: this.name, ...draft };
    if (this.database) {
      try {
        const transaction = this.database.transaction([STORES.events, STORES.own], "readwrite", { durability: "strict" });
        const own = transaction.objectStore(STORES.own);
        const key = `sequence ${plan.site}`;
        event.sequence = ((await answer(own.get(key)))?.value ?? 0) + 1;
        own.put({ key, value: event.sequence });
        transaction.objectStore(STORES.events).add({ site: plan.site, id: event.id, event });
        await whole(transaction);
        this.sequence = event.sequence;
        this.events.set(event.id, event);
        return event;
      } catch (error) {
        this.fail(error);
      }
    }
    this.sequence += 1;
    event.sequence = this.sequence;
    this.events.set(event.id, event);
    this.inMemory.add(event.id);
    return event;
  }

  /** Takes in what others noted. @param {Happening[]} events @param {Sent | null} sent how they are known elsewhere */
  async take(events, sent) {
    if (this.database) {
      try {
        const transaction = this.database.transaction([STORES.events, STORES.sent], "readwrite", { durability: "strict" });
        for (const event of events) {
          if (!this.events.has(event.id) || this.inMemory.has(event.id)) transaction.objectStore(STORES.events).put({ site: plan.site, id: event.id, event: this.events.get(event.id) ?? event });
          if (sent) transaction.objectStore(STORES.sent).put({ site: plan.site, id: event.id, state: sent });
        }
        await whole(transaction);
        for (const event of events) this.inMemory.delete(event.id);
      } catch (error) {
        this.fail(error);
      }
    }
    for (const event of events) {
      if (!this.events.has(event.id)) {
        this.events.set(event.id, event);
        if (this.trouble) this.inMemory.add(event.id);
      }
      if (sent) this.sent.set(event.id, sent);
    }
  }

  /** Notes that these were handed out. @param {string[]} ids */
  async exported(ids) {
    const fresh = ids.filter((id) => this.sent.get(id) !== "laptop");
    if (this.database) {
      try {
        const transaction = this.database.transaction([STORES.sent], "readwrite");
        for (const id of fresh) transaction.objectStore(STORES.sent).put({ site: plan.site, id, state: "exported" });
        await whole(transaction);
      } catch (error) {
        this.fail(error);
      }
    }
    for (const id of fresh) this.sent.set(id, "exported");
  }

  /** Who works on this phone. @param {string} name */
  async setName(name) {
    this.name = name;
    if (!this.database) return;
    try {
      const transaction = this.database.transaction([STORES.own], "readwrite");
      transaction.objectStore(STORES.own).put({ key: "name", value: name });
      await whole(transaction);
    } catch (error) {
      this.fail(error);
    }
  }

  /** How many are where. */
  counts() {
    const all = [...this.events.keys()];
    const state = (/** @type {Sent} */ wanted) => all.filter((id) => this.sent.get(id) === wanted).length;
    return { here: all.filter((id) => !this.sent.has(id)).length, exported: state("exported"), laptop: state("laptop"), all: all.length };
  }

  /** All of it as a file. */
  file() {
    const events = [...this.events.values()].sort((a, b) => (a.device === b.device ? a.sequence - b.sequence : a.device < b.device ? -1 : 1));
    const head = { format: "latchline-readings", version: 1, from: "phone", site: plan.site, plan: plan.plan, revision: plan.revision, device: this.device, by: this.name, exported_at: Date.now() };
    return { text: JSON.stringify({ ...head, events }, null, 1) + "\n", ids: events.map((event) => event.id) };
  }
}
