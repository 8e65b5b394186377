// The faults of the site as a table, ranked by readings: the same reckoning as the laptop makes from the same table.

/** @typedef {{ first: number, count: number, from: number, to: number, own: number }} Piece */
/** @typedef {{ name: string, sound: number, step: number, own: number, columns: number[] }} TableReading */
/** @typedef {{ size: number, regime: number, pattern: number }} TableSize */
/** @typedef {{ kind: string, element: string, prior: number, sizes: TableSize[] }} TableCause */
/** @typedef {{ readings: TableReading[], patterns: Piece[][], causes: TableCause[], none: number, wrong: number, careless: number, source: number, leftOut: number, leftPrior: number }} FaultTable */
/** @typedef {{ reading: number, scaled: number, deviation: number, outside: number }} TableRead */
/** @typedef {{ kind: string, element: string, probability: number, size: number | null }} FaultShare */

/** What is shared is kept in so many parts of a step. */
const COLUMN_PARTS = 8;
/** What is nearer to nothing, in steps, is none. */
const NOTHING = 1.25;
/** Variance of a change that is only known from its piece, in steps. */
const PIECE_VARIANCE = 1 / 12 + (0.75 * 0.75) / 3;
/** Points between two sizes. */
const BETWEEN = 6;
/** How far the tolerances' effect may differ for a faulted site, as a share of the change. */
const DERIVATIVE_ERROR = 0.1;
/** Of a cause that is not in the list, the probability that a reading is anything. */
const ANYTHING = 0.3;
/** How much wider than its meter's the error of a carelessly taken reading is. */
const CARELESS_TIMES = 5;
const OPEN_OHM = 1e6;
const MOST_INSULATION_OHM = 200e6;
const LOG_TWO_PI = Math.log(2 * Math.PI);

/** Reads a table. @param {Uint8Array} bytes @returns {FaultTable} */
export function readTable(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const words = new TextDecoder();
  let at = 5;
  if (words.decode(bytes.subarray(0, 4)) !== "LLFD" || bytes[4] !== 2) throw new Error("no table of faults");
  const figure = () => { at += 4; return view.getFloat32(at - 4, true); };
  const count = () => {
    let value = 0;
    let factor = 1;
    for (;;) {
      const byte = view.getUint8(at);
      at += 1;
      value += (byte & 0x7f) * factor;
      if (byte < 0x80) return value;
      factor *= 128;
    }
  };
  const signed = () => { const value = count(); return value % 2 === 0 ? value / 2 : -(value + 1) / 2; };
  const text = () => { const length = count(); at += length; return words.decode(bytes.subarray(at - length, at)); };
  /** @template T @param {() => T} of @returns {T[]} */
  const list = (of) => Array.from({ length: count() }, of);
  const [none, wrong, careless, source, leftPrior] = [figure(), figure(), figure(), figure(), figure()];
  const leftOut = count();
  const kinds = list(text);
  const elements = list(text);
  const readings = list(() => ({ name: text(), sound: figure(), step: figure(), own: figure(), columns: list(signed) }));
  const patterns = list(() => {
    let after = 0;
    return list(() => {
      const first = after + count();
      const number = count();
      const pieces = Math.floor(number / 2);
      after = first + pieces;
      const from = signed();
      const to = pieces > 1 ? from + signed() : from;
      return { first, count: pieces, from, to, own: number % 2 === 1 ? count() : 0 };
    });
  });
  const priors = list(figure);
  const grids = list(() => list(figure));
  let pattern = 0;
  const causes = list(() => {
    const kind = kinds[count()];
    const element = elements[count()];
    const prior = priors[count()];
    const sizes = grids[count()].map((size) => {
      pattern += signed();
      return { size, regime: 0, pattern };
    });
    let regimes = count();
    for (const size of sizes) {
      size.regime = regimes % 8;
      regimes = Math.floor(regimes / 8);
    }
    return { kind, element, prior, sizes };
  });
  if (at !== bytes.length) throw new Error("a table of faults with something behind it");
  return { readings, patterns, causes, none, wrong, careless, source, leftOut, leftPrior };
}

/** What of a table a reading is: "V", "A", "ohm" or "Mohm". @param {string} name */
export const unitOfReading = (name) => (name.startsWith("current:") ? "A" : name.startsWith("loop:") ? "ohm" : name.startsWith("insulation:") ? "Mohm" : "V");

/** A figure of a good meter as it is compared. @param {FaultTable} table @param {number} reading @param {number} value in V, A or ohm; infinite for open @returns {TableRead} */
export function asRead(table, reading, value) {
  const unit = unitOfReading(table.readings[reading].name);
  const root = Math.sqrt(3);
  // A little below zero is nothing: a meter's own offset.
  if (unit === "V") return { reading, scaled: Math.max(value, 0), deviation: (0.005 * Math.max(value, 0) + 0.03) / root, outside: 1 / (1.2 * table.source) };
  if (unit === "A") return { reading, scaled: value, deviation: (0.005 * Math.abs(value) + 0.002) / root, outside: 1 / 5 };
  if (unit === "Mohm") return { reading, scaled: Math.log10(Math.min(Math.max(value, 1e-2), MOST_INSULATION_OHM)), deviation: 0.15 / root, outside: 1 / 9 };
  const limit = value >= OPEN_OHM ? 0.3 * OPEN_OHM : 0.005 * Math.abs(value) + 0.1;
  return { reading, scaled: Math.min(Math.max(value, 0), OPEN_OHM), deviation: limit / root, outside: 1 / (4 * (Math.min(value, 1e6) + 10)) };
}

/** The change of a reading and its own deviation, in steps. @param {Piece[]} pattern @param {number} reading @returns {[number, number]} */
function changeOf(pattern, reading) {
  for (const piece of pattern) {
    if (reading < piece.first) break;
    if (reading >= piece.first + piece.count) continue;
    const share = piece.count > 1 ? (reading - piece.first) / (piece.count - 1) : 0;
    return [piece.from + share * (piece.to - piece.from), piece.own];
  }
  return [0, 0];
}

/** A size between two, by decades. @param {number} low @param {number} high @param {number} share */
const between = (low, high, share) => (low > 0 ? low * (high / low) ** share : low);

/** @param {number[]} logs */
function logSum(logs) {
  const highest = logs.reduce((most, log) => Math.max(most, log), -Infinity);
  if (highest === -Infinity) return highest;
  return highest + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - highest), 0));
}

/**
 * Logarithm of the likelihood of readings of which one at most is wrong or carelessly taken.
 * @param {number[]} residual @param {Float64Array} covariance row by row @param {TableRead[]} reads @param {number} wrong @param {number} careless
 */
function logLikelihood(residual, covariance, reads, wrong, careless) {
  const size = residual.length;
  if (size === 0) return 0;
  const lower = new Float64Array(size * size);
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column <= row; column += 1) {
      let known = 0;
      for (let k = 0; k < column; k += 1) known += lower[row * size + k] * lower[column * size + k];
      const left = covariance[row * size + column] - known;
      lower[row * size + column] = row === column ? Math.sqrt(Math.max(left, 1e-12 * Math.max(covariance[row * size + row], 1e-18))) : left / lower[column * size + column];
    }
  }
  let halfLogDeterminant = 0;
  for (let row = 0; row < size; row += 1) halfLogDeterminant += Math.log(lower[row * size + row]);
  // The inverse of the lower factor, in its place.
  for (let column = 0; column < size; column += 1) {
    lower[column * size + column] = 1 / lower[column * size + column];
    for (let row = column + 1; row < size; row += 1) {
      let known = 0;
      for (let k = column; k < row; k += 1) known += lower[row * size + k] * lower[k * size + column];
      lower[row * size + column] = -known / lower[row * size + row];
    }
  }
  const weighted = new Float64Array(size);
  const inverse = new Float64Array(size);
  let squared = 0;
  for (let row = 0; row < size; row += 1) {
    let whitened = 0;
    for (let column = 0; column <= row; column += 1) whitened += lower[row * size + column] * residual[column];
    squared += whitened * whitened;
    for (let column = 0; column <= row; column += 1) {
      const value = lower[row * size + column];
      weighted[column] += value * whitened;
      inverse[column] += value * value;
    }
  }
  const logAll = -0.5 * (squared + size * LOG_TWO_PI) - halfLogDeterminant;
  const logRight = Math.log(1 - wrong - careless);
  const logs = [logAll + size * logRight];
  for (let place = 0; place < size; place += 1) {
    const logGivenOthers = 0.5 * (Math.log(inverse[place]) - LOG_TWO_PI - (weighted[place] * weighted[place]) / inverse[place]);
    const logOthers = logAll - logGivenOthers + (size - 1) * logRight;
    logs.push(logOthers + Math.log(reads[place].outside) + Math.log(wrong));
    if (careless > 0) {
      const variance = 1 / inverse[place] + (CARELESS_TIMES * CARELESS_TIMES - 1) * reads[place].deviation ** 2;
      const off = weighted[place] / inverse[place];
      logs.push(logOthers + Math.log(careless) - 0.5 * (Math.log(variance) + LOG_TWO_PI + (off * off) / variance));
    }
  }
  return logSum(logs);
}

/** Every cause with its probability, the most probable first, and the probability of none of these. @param {FaultTable} table @param {TableRead[]} reads @returns {{ shares: FaultShare[], none: number }} */
export function rankFaults(table, reads) {
  const size = reads.length;
  const entries = reads.map((read) => table.readings[read.reading]);
  const shared = new Float64Array(size * size);
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; column += 1) {
      let sum = 0;
      for (let k = 0; k < entries[row].columns.length; k += 1) sum += entries[row].columns[k] * entries[column].columns[k];
      shared[row * size + column] = (sum * entries[row].step * entries[column].step) / (COLUMN_PARTS * COLUMN_PARTS);
      // The same reading twice shares all of it.
      if (reads[row].reading === reads[column].reading) shared[row * size + column] += entries[row].own;
    }
  }
  const sound = entries.map((entry) => entry.sound);
  /** @param {number[]} values @param {number[]} own */
  const compare = (values, own) => {
    const covariance = Float64Array.from(shared);
    values.forEach((value, place) => {
      if (value !== 0) return;
      // What is cut off depends on nothing.
      for (let other = 0; other < size; other += 1) {
        covariance[place * size + other] = 0;
        covariance[other * size + place] = 0;
      }
    });
    values.forEach((value, place) => {
      const change = value - sound[place];
      covariance[place * size + place] += reads[place].deviation ** 2 + own[place] ** 2 + (DERIVATIVE_ERROR * change) ** 2 + (change === 0 ? 0 : PIECE_VARIANCE * entries[place].step ** 2);
    });
    return logLikelihood(reads.map((read, place) => read.scaled - values[place]), covariance, reads, table.wrong, table.careless);
  };
  const nothing = entries.map(() => 0);
  const logSound = compare(sound, nothing);
  /** @type {Map<number, { values: number[], own: number[], isChanged: boolean }>} */
  const known = new Map();
  const saidOf = (/** @type {number} */ pattern) => {
    const found = known.get(pattern);
    if (found) return found;
    const changes = reads.map((read) => changeOf(table.patterns[pattern], read.reading));
    const values = changes.map(([steps, own], place) => {
      if (steps === 0 && own === 0) return sound[place];
      const value = sound[place] + steps * entries[place].step;
      return Math.abs(value) < NOTHING * entries[place].step ? 0 : value;
    });
    const said = { values, own: changes.map(([, own], place) => own * entries[place].step), isChanged: changes.some(([steps, own]) => steps !== 0 || own !== 0) };
    known.set(pattern, said);
    return said;
  };
  /** @param {TableCause} cause @returns {[number, number | null]} */
  const logOf = ({ sizes }) => {
    if (sizes.length === 0) return [logSound, null];
    const said = sizes.map((one) => saidOf(one.pattern));
    if (said.length === 1) return [compare(said[0].values, said[0].own), null];
    // What changes none of the readings fits as nothing does, at any size.
    if (!said.some((one) => one.isChanged)) return [logSound, between(sizes[0].size, sizes[1].size, 0.5 / BETWEEN)];
    const logs = [];
    let best = -Infinity;
    let bestSize = sizes[0].size;
    for (let place = 0; place + 1 < said.length; place += 1) {
      const [near, far] = [said[place], said[place + 1]];
      for (let step = 0; step < BETWEEN; step += 1) {
        const share = (step + 0.5) / BETWEEN;
        const mixed = (/** @type {number[]} */ a, /** @type {number[]} */ b) => a.map((value, index) => value + share * (b[index] - value));
        const nearer = share > 0.5 ? far : near;
        const isOne = sizes[place].regime === sizes[place + 1].regime;
        const log = isOne ? compare(mixed(near.values, far.values), mixed(near.own, far.own)) : compare(nearer.values, nearer.own);
        if (log > best) {
          best = log;
          bestSize = between(sizes[place].size, sizes[place + 1].size, share);
        }
        logs.push(log);
      }
    }
    return [logSum(logs) - Math.log(logs.length), bestSize];
  };
  const found = table.causes.map((cause) => {
    const [log, bestSize] = logOf(cause);
    return { cause, log: log + Math.log(Math.max(cause.prior, 1e-30)), bestSize };
  });
  const logNone = reads.reduce((sum, read, place) => {
    const variance = shared[place * size + place] + read.deviation ** 2;
    const error = read.scaled - sound[place];
    const fits = Math.exp((-0.5 * error * error) / variance) / Math.sqrt(2 * Math.PI * variance);
    return sum + Math.log((1 - ANYTHING) * fits + ANYTHING * read.outside);
  }, Math.log(Math.max(table.none + table.leftPrior, 1e-30)));
  const total = logSum([logSum(found.map((one) => one.log)), logNone]);
  const shares = found.map(({ cause, log, bestSize }) => ({ kind: cause.kind, element: cause.element, probability: Math.exp(log - total), size: bestSize }));
  shares.sort((a, b) => b.probability - a.probability);
  return { shares, none: Math.exp(logNone - total) };
}
