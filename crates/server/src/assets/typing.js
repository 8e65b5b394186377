// What is marked in a field, kept while the field is drawn anew: typing goes on where it was, before its first letter too.

/** @typedef {{from: number | null, to: number | null, whole: boolean}} Marked */

/**
 * @param {HTMLInputElement} field
 * @returns {Marked}
 */
export function marked(field) {
  const [from, to] = [field.selectionStart, field.selectionEnd];
  return { from, to, whole: from === 0 && to === field.value.length };
}

/**
 * Marks the same part of the field that took its place; what was to be typed over as a whole stays so.
 * @param {HTMLInputElement} field
 * @param {Marked} was
 */
export function mark(field, was) {
  if (field.type !== "text") return;
  if (was.whole) field.select();
  else field.setSelectionRange(was.from, was.to);
}
