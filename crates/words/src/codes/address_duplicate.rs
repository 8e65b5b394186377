//! `address-duplicate`

code! {
    "address-duplicate"
    title: "Two devices are given the same number" | "Nummer doppelt vergeben",
    message:
        "{element} has the same {field} number {number} as {other}"
        | "{element} hat im Feld {field} dieselbe Nummer {number} wie {other}",
    label: "the same number" | "dieselbe Nummer",
    hint: "change one of the two" | "eines von beiden ändern",
    english:
        /// Both would answer, or neither. The number was stated for both; change one of them. Both places are shown.
    german:
        /// Beide würden antworten, oder keines. Die Nummer wurde für beide angegeben; eine davon ändern. Beide Stellen werden gezeigt.
}
