//! `address-duplicate`

code! {
    "address-duplicate"
    title: "Two devices are given the same number" | "Zwei Geräte haben dieselbe Nummer",
    short: "number double" | "Nummer doppelt",
    message:
        "{element} has the same {field} number {number} as {other}"
        | "{element} hat im Feld {field} dieselbe Nummer {number} wie {other}",
    label: "the same number" | "dieselbe Nummer",
    hint: "change one of the two" | "eines von beiden ändern",
    measure:
        "Nothing with a meter: read the switches of both devices, and switch power off and on after a change."
        | "Nichts mit dem Messgerät: die Schalter beider Geräte ablesen, und nach einer Änderung aus- und einschalten.",
    english:
        /// Both would answer, or neither. The number was stated for both; change one of them. Both places are shown.
    german:
        /// Beide würden antworten, oder keines. Die Nummer wurde für beide angegeben; eine davon ändern. Beide Stellen werden gezeigt.
}
